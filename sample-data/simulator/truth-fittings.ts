import type { Entry } from "../../src/logbook/entry.ts";
import { chokedShare } from "./leaks.ts";
import { curveAt } from "./ledger.ts";
import type { Truth } from "./truth-types.ts";
import type { Watch } from "./watch.ts";

/** What each written drip really was, and carried from the mean boiler pressure to working pressure. */
export function trueDrips(watch: Watch, entries: readonly Entry[]): Truth["drips"] {
  const { curves, leakedG } = watch.ledger;
  const { atmospherePa, workingPa } = watch.day;
  return entries.flatMap((entry) => {
    if (entry.kind !== "drip") return [];
    const leak = watch.plan.engine.nature.leaks.find((each) => each.fitting === entry.fitting);
    const leaked = leakedG[entry.fitting];
    const fromS = Math.max(0, entry.atS - entry.overS);
    const g = leaked === undefined ? 0 : curveAt(leaked, entry.atS) - curveAt(leaked, fromS);
    const pressures = curves.pressureBarG.slice(Math.round(fromS), Math.round(entry.atS) + 1);
    const meanPa =
      (pressures.reduce((sum, barG) => sum + barG, 0) / Math.max(1, pressures.length)) * 1e5 + atmospherePa;
    const share =
      leak?.side === "water"
        ? Math.sqrt((workingPa - atmospherePa) / (meanPa - atmospherePa))
        : (workingPa * chokedShare(workingPa, atmospherePa)) / (meanPa * chokedShare(meanPa, atmospherePa));
    return [
      { fitting: entry.fitting, atS: entry.atS, g, gPerMinAtWorkingPressure: (g * 60 * share) / entry.overS },
    ];
  });
}
