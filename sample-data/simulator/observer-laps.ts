import type { Entry } from "../../src/logbook/entry.ts";
import { lapTimesS } from "./laps.ts";
import type { Watch } from "./watch.ts";

/** Of laps forgotten, so many are noticed at the next tap and counted with it; the rest are lost. */
const NOTICED = 0.5;

/** Laps as written: `count` is of the laps since the entry before. */
export function lapEntries(watch: Watch): Entry[] {
  const { habits, ledger, random, plan } = watch;
  if (plan.track === null || habits.laps === "none") return [];
  const times = lapTimesS(ledger.curves.distanceM, plan.track.lapM);
  const entries: Entry[] = [];
  if (habits.laps === "each") {
    let owed = 0;
    times.forEach((atS, index) => {
      const last = index === times.length - 1;
      if (!last && random.chance(habits.forgottenLaps)) {
        if (random.chance(NOTICED)) owed += 1;
        return;
      }
      entries.push({ kind: "lap", atS: watch.stamp(atS, "lap"), count: 1 + owed });
      owed = 0;
    });
    return entries;
  }
  let written = 0;
  for (const happening of ledger.happenings) {
    if (happening.kind !== "regulator" || happening.state !== "shut") continue;
    const count = times.filter((atS) => atS <= happening.atS).length;
    if (count > written) {
      entries.push({ kind: "lap", atS: watch.stamp(happening.atS + 5, "lap"), count: count - written });
    }
    written = count;
  }
  return entries;
}
