import type { Entry } from "../../src/logbook/entry.ts";
import { lapTimesS } from "./laps.ts";
import type { Watch } from "./watch.ts";

/** Laps as counted: `count` is the number completed so far. A tap forgotten leaves a gap, not a wrong count. */
export function lapEntries(watch: Watch): Entry[] {
  const { habits, ledger, random, plan } = watch;
  if (plan.track === null || habits.laps === "none") return [];
  const times = lapTimesS(ledger.curves.distanceM, plan.track.lapM);
  const entries: Entry[] = [];
  if (habits.laps === "each") {
    times.forEach((atS, index) => {
      const last = index === times.length - 1;
      if (!last && random.chance(habits.forgottenLaps)) return;
      entries.push({ kind: "lap", atS: watch.stamp(atS, "lap"), count: index + 1 });
    });
    return entries;
  }
  let written = 0;
  for (const happening of ledger.happenings) {
    if (happening.kind !== "regulator" || happening.state !== "shut") continue;
    const count = times.filter((atS) => atS <= happening.atS).length;
    if (count > written) entries.push({ kind: "lap", atS: watch.stamp(happening.atS + 5, "lap"), count });
    written = count;
  }
  return entries;
}
