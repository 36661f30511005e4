import { interval, isMeasured, type Measured, standardUncertainty } from "../../src/quantity/measured.ts";
import type { Judged } from "./judged.ts";

/** How well the intervals of one figure kept their promise over many simulated steamings. */
export interface Coverage {
  name: string;
  /** figures given, and those not to be had though there was a truth */
  given: number;
  refused: number;
  held: number;
  /** mean of (figure - truth)/u, and its standard deviation, which is 1 for a just u */
  meanMiss: number;
  spread: number;
  /** median of u/|truth| */
  relativeU: number;
  worst: { miss: number; run: number };
  /** mean of u against that of an estimate that is told the true error sizes; null where none is reckoned */
  widthRatio: number | null;
}

export class CoverageTally {
  private readonly misses = new Map<
    string,
    { miss: number; held: boolean; relativeU: number; run: number }[]
  >();
  private readonly refusals = new Map<string, number>();
  private readonly widths = new Map<string, number[]>();

  addWidths(widths: readonly { name: string; ratio: number }[]): void {
    for (const { name, ratio } of widths) this.widths.set(name, [...(this.widths.get(name) ?? []), ratio]);
  }

  add(run: number, judged: readonly Judged[]): void {
    for (const { name, figure, truth } of judged) {
      if (truth === null || !Number.isFinite(truth)) continue;
      if (!isMeasured(figure)) {
        this.refusals.set(name, (this.refusals.get(name) ?? 0) + 1);
        continue;
      }
      const list = this.misses.get(name) ?? [];
      list.push({ ...missOf(figure, truth), run });
      this.misses.set(name, list);
    }
  }

  table(): Coverage[] {
    return [...this.misses].map(([name, list]) => {
      const n = list.length;
      const mean = list.reduce((sum, one) => sum + one.miss, 0) / n;
      const worst = list.reduce((a, b) => (Math.abs(b.miss) > Math.abs(a.miss) ? b : a));
      return {
        name,
        given: n,
        refused: this.refusals.get(name) ?? 0,
        held: list.filter((one) => one.held).length,
        meanMiss: mean,
        spread: Math.sqrt(list.reduce((sum, one) => sum + (one.miss - mean) ** 2, 0) / Math.max(1, n - 1)),
        relativeU: list.map((one) => one.relativeU).sort((a, b) => a - b)[n >> 1] ?? 0,
        worst: { miss: worst.miss, run: worst.run },
        widthRatio: meanOf(this.widths.get(name)),
      };
    });
  }
}

const meanOf = (values: readonly number[] | undefined): number | null =>
  values === undefined ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

function missOf(figure: Measured, truth: number) {
  const u = standardUncertainty(figure);
  const [low, high] = interval(figure);
  return {
    miss: u === 0 ? (figure.value === truth ? 0 : Number.POSITIVE_INFINITY) : (figure.value - truth) / u,
    held: truth >= low && truth <= high,
    relativeU: u / Math.max(Math.abs(truth), 1e-9),
  };
}
