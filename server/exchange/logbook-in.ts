import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import type { Problem } from "../../src/logbook/problems.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import type { Kept } from "../store/locomotives.ts";
import type { Store } from "../store/store.ts";
import { withIds } from "./derived-id.ts";
import { mergeTrace } from "./merge-trace.ts";

export interface Count {
  added: number;
  same: number;
  differs: number;
}

/** What bringing a logbook in does, or would do. */
export interface ImportOutcome {
  locomotives: Count;
  steamings: Count;
  /** `deleted`: left out, as they were deleted here before */
  entries: Count & { deleted: number };
  services: Count;
  problems: Problem[];
}

export const nothingDone = (problems: Problem[] = []): ImportOutcome => ({
  locomotives: { added: 0, same: 0, differs: 0 },
  steamings: { added: 0, same: 0, differs: 0 },
  entries: { added: 0, same: 0, differs: 0, deleted: 0 },
  services: { added: 0, same: 0, differs: 0 },
  problems,
});

class NotKept extends Error {}

/**
 * Adds what a checked logbook file holds and the store lacks, wholly or not at all: where an id is kept with
 * other content, or `preview` is set, everything is put back as it was and only the outcome remains.
 */
export function bringIn(
  store: Store,
  file: LogbookFile,
  options: { preview?: boolean; demonstration?: boolean } = {},
): ImportOutcome {
  const outcome = nothingDone();
  try {
    store.atOnce(() => {
      addAll(store, file, options.demonstration ?? false, outcome);
      if (options.preview === true || outcome.problems.length > 0) throw new NotKept();
    });
  } catch (error) {
    if (!(error instanceof NotKept)) throw error;
  }
  return outcome;
}

function addAll(store: Store, file: LogbookFile, demonstration: boolean, outcome: ImportOutcome): void {
  const note = (count: Count, kept: Kept, path: string, id: string) => {
    if (kept === "added" || kept === "same") count[kept]++;
    else {
      count.differs++;
      outcome.problems.push(differing(path, id));
    }
  };
  file.locomotives.forEach((locomotive, i) => {
    const kept = store.locomotives.add(locomotive, demonstration);
    note(outcome.locomotives, kept, `locomotives[${i}]`, locomotive.id);
  });
  file.steamings.forEach((steaming, i) => {
    const { entries, traces, ...head } = steaming;
    const kept = store.steamings.add(head, demonstration);
    note(outcome.steamings, kept, `steamings[${i}]`, head.id);
    if (kept === "added") addWhole(store, steaming, outcome);
    else if (kept === "same") addWhatIsLacking(store, steaming, `steamings[${i}]`, outcome);
  });
  file.services.forEach((service, i) => {
    note(outcome.services, store.services.add(service, demonstration), `services[${i}]`, service.id);
  });
}

function addWhole(store: Store, steaming: Steaming, outcome: ImportOutcome): void {
  store.entries.addToNew(steaming.id, withIds(steaming.id, steaming.entries));
  outcome.entries.added += steaming.entries.length;
  for (const trace of steaming.traces ?? []) store.traces.add(steaming.id, trace);
}

function addWhatIsLacking(store: Store, steaming: Steaming, path: string, outcome: ImportOutcome): void {
  withIds(steaming.id, steaming.entries).forEach((entry, i) => {
    const kept = store.entries.put(steaming.id, entry);
    if (kept === "differs") outcome.problems.push(differing(`${path}.entries[${i}]`, entry.id));
    outcome.entries[kept === "buried" ? "deleted" : kept === "corrected" ? "same" : kept]++;
  });
  (steaming.traces ?? []).forEach((trace, i) => {
    const kept = mergeTrace(store, steaming.id, trace);
    if ("added" in kept) return;
    outcome.steamings.differs++;
    outcome.problems.push({
      path: `${path}.traces[${i}]`,
      came:
        "full" in kept ? "one trace more" : `another ${trace.channel} than is kept at ${kept.differsAtS} s`,
      wanted: "full" in kept ? "at most 100 traces in a steaming" : "the same samples, or another steaming",
    });
  });
}

const differing = (path: string, id: string): Problem => ({
  path,
  came: `other content than is kept under ${id}`,
  wanted: "the same content, or another id",
});
