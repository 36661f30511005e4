import { interval, isMeasured, type Measured, standardUncertainty } from "../../src/quantity/measured.ts";
import type { Judged } from "./judged-figures.ts";

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
  /** mean of u/|truth| */
  relativeU: number;
  worst: { miss: number; run: number };
}

export class CoverageTally {
  private readonly misses = new Map<
    string,
    { miss: number; held: boolean; relativeU: number; run: number }[]
  >();
  private readonly refusals = new Map<string, number>();

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
        relativeU: list.reduce((sum, one) => sum + one.relativeU, 0) / n,
        worst: { miss: worst.miss, run: worst.run },
      };
    });
  }
}

function missOf(figure: Measured, truth: number) {
  const u = standardUncertainty(figure);
  const [low, high] = interval(figure);
  return {
    miss: u === 0 ? (figure.value === truth ? 0 : Number.POSITIVE_INFINITY) : (figure.value - truth) / u,
    held: truth >= low && truth <= high,
    relativeU: u / Math.max(Math.abs(truth), 1e-9),
  };
}
