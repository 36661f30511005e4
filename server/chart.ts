import type { Entry } from "../src/logbook/entry.ts";
import type { Store } from "./store/store.ts";
import type { Channel, TraceHead } from "./store/traces.ts";

export const chartUnits: Record<Channel, string> = {
  pressureBarG: "bar",
  temperatureC: "°C",
  levelMm: "mm",
  massG: "g",
};

export type Bucket = [atS: number, lowest: number, highest: number];
export interface Chart {
  channel: Channel;
  unit: string;
  raw: boolean;
  points: ([atS: number, value: number] | Bucket)[];
}

interface Window {
  fromS: number;
  toS: number;
  width: number;
}

/** What a hand noted of a channel. */
function noted(entry: Entry, channel: Channel): number | null {
  if (channel === "pressureBarG") return entry.kind === "pressure" ? entry.barG : null;
  if (channel === "levelMm") return entry.kind === "level" ? entry.mm : null;
  if (channel === "massG") return entry.kind === "weight" ? entry.g : null;
  return entry.kind === "temperature" && entry.of === "boiler" ? entry.celsius : null;
}

/**
 * A channel of a steaming for a chart so many pixels wide: every reading where they are few enough, else the
 * lowest and highest of each pixel's worth, so that no peak is lost.
 */
export function chartOf(store: Store, steamingId: string, channel: Channel, asked: Partial<Window>): Chart {
  const byHand = store.entries.ofSteaming(steamingId).flatMap((entry): [number, number][] => {
    const value = noted(entry, channel);
    return value === null ? [] : [[entry.atS, value]];
  });
  const heads = store.traces.heads(steamingId).filter((head) => head.channel === channel);
  const window = windowOf(asked, byHand, heads);
  const seen = byHand.filter(([atS]) => atS >= window.fromS && atS <= window.toS);
  const spans = heads.map((head) => ({ head, ...indexesWithin(head, window) })).filter((s) => s.to >= s.from);
  const count = spans.reduce((total, span) => total + span.to - span.from + 1, seen.length);
  const unit = chartUnits[channel];
  if (count <= 2 * window.width) {
    const traced = spans.flatMap((span) => readingsOf(store, span));
    return { channel, unit, raw: true, points: [...seen, ...traced].sort((a, b) => a[0] - b[0]) };
  }
  const buckets = new Buckets(window);
  for (const [atS, value] of seen) buckets.take(atS, value, value);
  for (const span of spans) fillBuckets(store, span, buckets);
  return { channel, unit, raw: false, points: buckets.points() };
}

function windowOf(asked: Partial<Window>, byHand: readonly [number, number][], heads: TraceHead[]): Window {
  const begins = [...heads.map((head) => head.startS), ...byHand.map(([atS]) => atS)];
  const ends = [
    ...heads.map((head) => head.startS + (head.samples - 1) * head.everyS),
    ...byHand.map(([atS]) => atS),
  ];
  const least = begins.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const most = ends.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  return {
    fromS: asked.fromS ?? (Number.isFinite(least) ? least : 0),
    toS: asked.toS ?? (Number.isFinite(most) ? most : 0),
    width: asked.width ?? 1000,
  };
}

interface Span {
  head: TraceHead;
  from: number;
  to: number;
}

function indexesWithin({ startS, everyS, samples }: TraceHead, { fromS, toS }: Window) {
  const from = Math.max(0, Math.ceil((fromS - startS) / everyS));
  const to = Math.min(samples - 1, Math.floor((toS - startS) / everyS));
  return { from, to };
}

function readingsOf(store: Store, { head, from, to }: Span): [number, number][] {
  return store.traces.stretches(head.seq, from, to).flatMap((stretch) =>
    stretch.values().flatMap((value, i): [number, number][] => {
      const index = stretch.first + i;
      if (value === null || index < from || index > to) return [];
      return [[head.startS + index * head.everyS, value]];
    }),
  );
}

function fillBuckets(store: Store, span: Span, buckets: Buckets): void {
  const { head, from, to } = span;
  const atS = (index: number) => head.startS + index * head.everyS;
  for (const stretch of store.traces.stretches(head.seq, from, to)) {
    const last = stretch.first + stretch.samples - 1;
    if (stretch.lowest === null || stretch.highest === null) continue;
    // a stretch that lies in one bucket need not be decoded
    if (
      stretch.first >= from &&
      last <= to &&
      buckets.indexAt(atS(stretch.first)) === buckets.indexAt(atS(last))
    ) {
      buckets.take(atS(stretch.first), stretch.lowest, stretch.highest);
      continue;
    }
    stretch.values().forEach((value, i) => {
      const index = stretch.first + i;
      if (value !== null && index >= from && index <= to) buckets.take(atS(index), value, value);
    });
  }
}

/** The lowest and highest value of each of `width` equal parts of a window. */
class Buckets {
  readonly #window: Window;
  readonly #filled = new Map<number, [lowest: number, highest: number]>();

  constructor(window: Window) {
    this.#window = window;
  }

  indexAt(atS: number): number {
    const { fromS, toS, width } = this.#window;
    return Math.min(width - 1, Math.floor(((atS - fromS) / (toS - fromS)) * width));
  }

  take(atS: number, lowest: number, highest: number): void {
    const index = this.indexAt(atS);
    const before = this.#filled.get(index);
    if (before === undefined) this.#filled.set(index, [lowest, highest]);
    else this.#filled.set(index, [Math.min(before[0], lowest), Math.max(before[1], highest)]);
  }

  /** Each bucket at its middle, in order of time. */
  points(): Bucket[] {
    const { fromS, toS, width } = this.#window;
    return [...this.#filled]
      .sort(([a], [b]) => a - b)
      .map(([index, [lowest, highest]]) => [
        fromS + ((index + 0.5) * (toS - fromS)) / width,
        lowest,
        highest,
      ]);
  }
}
