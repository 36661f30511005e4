import type { Trace } from "../../src/logbook/steaming.ts";
import type { Store } from "../store/store.ts";
import { samplesPerBlock } from "../store/trace-block.ts";
import type { TraceHead } from "../store/traces.ts";

export const mostSamples = 2_000_000;
export const mostTraces = 100;

/** What became of a trace: samples that were new, or the first that says other than what is kept. */
export type TraceKept = { added: number } | { differsAtS: number } | { full: true };

/**
 * Keeps a trace in a steaming. Where one of its channel is kept on the same grid of times the two become one:
 * samples that are there already are not doubled, and none is overwritten.
 */
export function mergeTrace(store: Store, steamingId: string, trace: Trace): TraceKept {
  const heads = store.traces.heads(steamingId);
  for (const head of heads) {
    const offset = offsetOnGrid(head, trace);
    if (offset !== null) return mergeAt(store, steamingId, head, trace, offset);
  }
  if (heads.length >= mostTraces) return { full: true };
  store.traces.add(steamingId, trace);
  return { added: countOf(trace.values) };
}

const countOf = (values: readonly (number | null)[]) => values.filter((value) => value !== null).length;

/** By how many steps the trace begins after the kept one, or null where the two do not share a grid. */
export function offsetOnGrid(
  head: TraceHead,
  trace: Pick<Trace, "channel" | "startS" | "everyS" | "values">,
): number | null {
  if (head.channel !== trace.channel || Math.abs(head.everyS / trace.everyS - 1) > 1e-12) return null;
  const steps = (trace.startS - head.startS) / head.everyS;
  const offset = Math.round(steps);
  if (Math.abs(steps - offset) > 1e-6) return null;
  const together = Math.max(head.samples, offset + trace.values.length) - Math.min(0, offset);
  return together <= mostSamples ? offset : null;
}

function mergeAt(store: Store, steamingId: string, head: TraceHead, trace: Trace, offset: number): TraceKept {
  // blocks wholly before the new samples stay as they are, unless the trace now begins earlier
  const from = offset < 0 ? 0 : Math.min(head.samples, offset);
  const firstKept = from - (from % samplesPerBlock);
  const kept = store.traces
    .stretches(head.seq, firstKept, head.samples)
    .flatMap((stretch) => stretch.values());
  const begin = Math.min(firstKept, offset);
  const end = Math.max(head.samples, offset + trace.values.length);
  const merged: (number | null)[] = [];
  let added = 0;
  for (let index = begin; index < end; index++) {
    const old = kept[index - firstKept] ?? null;
    const given = trace.values[index - offset] ?? null;
    if (old !== null && given !== null && old !== given) {
      return { differsAtS: head.startS + index * head.everyS };
    }
    if (old === null && given !== null) added++;
    merged.push(old ?? given);
  }
  const samples = end - Math.min(0, offset);
  if (added === 0 && samples === head.samples) return { added };
  const startS = offset < 0 ? trace.startS : head.startS;
  store.traces.rewrite(steamingId, head.seq, { startS, samples, first: Math.max(0, begin) }, merged);
  return { added };
}
