import type { RunFigures } from "../src/sizing/run-figures.ts";
import { runFiguresOf } from "../src/sizing/run-figures-of.ts";
import type { Reports } from "./reports.ts";
import type { Store } from "./store/store.ts";

const remembered = 500;

/** Figures for sizing of an engine's steamings, remembered until the steaming or its engine changes. */
export function runFiguresIn(store: Store, reports: Reports) {
  const known = new Map<string, RunFigures>();

  function one(steamingId: string, revisions: string): RunFigures[] {
    const key = `${steamingId}\n${revisions}`;
    const before = known.get(key);
    if (before !== undefined) return [before];
    const now = told(() => runFiguresOf(reports.analysisOf(steamingId)));
    for (const run of now) known.set(key, run);
    const oldest = known.keys().next().value;
    if (known.size > remembered && oldest !== undefined) known.delete(oldest);
    return now;
  }

  /** Those that can be reckoned, oldest first. */
  return (locomotiveId: string): RunFigures[] => {
    const engine = store.locomotives.get(locomotiveId);
    return store.steamings
      .ofLocomotive(locomotiveId)
      .flatMap((kept) => one(kept.head.id, `${kept.revision} ${engine?.revision ?? 0}`))
      .sort((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt));
  };
}

/** A steaming that cannot be reckoned must not keep the others from being used. */
function told(make: () => RunFigures): RunFigures[] {
  try {
    return [make()];
  } catch (error) {
    if (error instanceof RangeError) return [];
    throw error;
  }
}
