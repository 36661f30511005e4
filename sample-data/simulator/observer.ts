import type { Entry } from "../../src/logbook/entry.ts";
import { extraEntries } from "./observer-extras.ts";
import { feedEntries } from "./observer-feed.ts";
import { fittingEntries } from "./observer-fittings.ts";
import { fuelEntries, weighings } from "./observer-fuel.ts";
import { gaugeReadings } from "./observer-gauges.ts";
import { lapEntries } from "./observer-laps.ts";
import type { Watch } from "./watch.ts";

/** All that the observer writes, in order of time. Times are whole seconds. */
export function entriesOf(watch: Watch): Entry[] {
  const jottings: Entry[] = [
    ...handlings(watch),
    ...gaugeReadings(watch),
    ...feedEntries(watch),
    ...fuelEntries(watch),
    ...weighings(watch),
    ...lapEntries(watch),
    ...fittingEntries(watch),
    ...extraEntries(watch),
  ];
  const { writesUntilS = Number.POSITIVE_INFINITY } = watch.habits;
  const ordered = jottings
    .filter((entry) => entry.atS <= writesUntilS)
    .map((entry, index) => ({ entry, index }))
    .sort((a, b) => a.entry.atS - b.entry.atS || a.index - b.index);
  return ordered.map(({ entry }, index) => ({
    id: `${watch.plan.id}-${String(index + 1).padStart(3, "0")}`,
    ...entry,
  }));
}

/** Fire, regulator, by-pass, blower, valve and phases: written as they happen, a few seconds off. */
function handlings(watch: Watch): Entry[] {
  const { habits, ledger } = watch;
  const entries: Entry[] = [];
  for (const happening of ledger.happenings) {
    switch (happening.kind) {
      case "fill":
        if (habits.writesFill) entries.push({ kind: "fill", atS: 0, ml: happening.ml });
        if (habits.writesBypassOpen === true && watch.plan.engine.locomotive.axlePump !== undefined)
          entries.push({ kind: "bypass", atS: 0, state: "open" });
        break;
      case "fire": {
        // a fire that goes out by itself is noticed late
        const lateS = happening.byItself ? watch.random.between(3, 25) : 0;
        entries.push({
          kind: "fire",
          atS: watch.stamp(happening.atS + lateS, happening.kind),
          state: happening.state,
        });
        break;
      }
      case "regulator":
        if (habits.writesRegulator) {
          entries.push({
            kind: "regulator",
            atS: watch.stamp(happening.atS, happening.kind),
            state: happening.state,
          });
        }
        break;
      case "bypass":
        entries.push({
          kind: "bypass",
          atS: watch.stamp(happening.atS, happening.kind),
          state: happening.state,
        });
        break;
      case "blower":
        entries.push({
          kind: "blower",
          atS: watch.stamp(happening.atS, happening.kind),
          state: happening.state,
        });
        break;
      case "valve":
        if (habits.writesValve) {
          entries.push({
            kind: "valve",
            atS: watch.stamp(happening.atS, happening.kind),
            state: happening.state,
          });
        }
        break;
      case "stage":
        if (habits.marksPhases) {
          entries.push({
            kind: "phase",
            atS: watch.stamp(happening.atS, happening.kind),
            name: happening.name,
          });
        }
        break;
      default:
        break;
    }
  }
  return entries;
}
