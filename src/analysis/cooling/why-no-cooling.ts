import { NONE_BAR } from "../pressure/pressure-course.ts";
import { thermometerPressures } from "../pressure/thermometer-pressures.ts";
import type { Sources } from "../sources.ts";
import type { Stretch } from "../state/phases.ts";
import { isWarmthRead, leftOutThermometer } from "./believed-thermometer.ts";
import {
  blownUntilS,
  type CoolingReading,
  coolingReadings,
  type Disturbed,
  LEAST_BAR,
  shutInStretches,
  shutInWindow,
} from "./shut-in-course.ts";

export const LEAST_READINGS = 4;
const LEAST_S = 150;

/** Whether so many pressures, over so long a time, tell how she cooled. */
export const enoughRead = (readings: readonly CoolingReading[]): boolean =>
  readings.length >= LEAST_READINGS && lengthOf(readings) >= LEAST_S;

const lengthOf = (readings: readonly CoolingReading[]): number =>
  (readings.at(-1)?.atS ?? 0) - (readings[0]?.atS ?? 0);

const HOW = "read the dial each minute or two";
const NOTHING_SHUT_IN = `nothing was written down after all was shut: say when the fire is out, then ${HOW}, and the glass at both ends`;
const NOTHING_AFTER = `nothing was written down after the fire was out: ${HOW} from then on, and the glass at both ends`;
const MARKED_RUNNING =
  "she was marked as running to the end: mark when she was shut in, or write when the regulator was shut";
const ONLY_WARMTH =
  "the boiler's thermometer was read, but never above boiling, where it tells the pressure: read it each minute or two while steam is up";

/** Why nothing in a hot hold counts as shut in. */
export function whyNeverShutIn(from: Sources): string {
  const { timeline, pressures, around } = from;
  const boiled =
    pressures.all.some(({ barG }) => barG > NONE_BAR) || thermometerPressures(timeline, around).length > 0;
  if (isWarmthRead(from) && !boiled) return ONLY_WARMTH;
  const last = timeline.of("fire").at(-1);
  if (last?.state !== "out") return NOTHING_SHUT_IN;
  return last.atS < (timeline.lastS ?? 0) ? MARKED_RUNNING : NOTHING_AFTER;
}

/** In a hold of which no fire was written: its highest pressure is the last of enough to tell a fall. */
function roseThroughout({ steaming, timeline, pressure }: Sources): boolean {
  if (steaming.purpose !== "hot-hold" || timeline.of("fire").length > 0) return false;
  const { points, highest } = pressure;
  return points.length >= LEAST_READINGS && highest?.atS === points.at(-1)?.[0];
}

/** Why the pressures of a window do not tell how she cooled: what was done meanwhile, or how they were read. */
export function whyTooFew(from: Sources, window: Stretch): string {
  if (roseThroughout(from)) return "the pressure rose to the end of the log: was the fire still lit?";
  const readings = coolingReadings(from, ...window);
  if (enoughRead(readings) && blownUntilS(readings) !== null)
    return "the pressure rose again after it fell with all shut, as where a safety valve blows or a fire is still lit, and too few were read after that";
  const disturbed = whatDisturbed(from);
  if (disturbed !== null) return disturbed;
  const { byHand, logged } = leftOutThermometer(from, ...window);
  if (byHand !== null || logged !== null)
    return `the boiler's thermometer does not go with the dial, and is left out; by the dial alone too few pressures were read with all shut: ${HOW} once the fire is out`;
  const read = from.pressures.all.filter(
    ({ atS, barG }) => atS >= window[0] && atS <= window[1] && barG > LEAST_BAR,
  );
  if (readings.length < LEAST_READINGS && read.length >= LEAST_READINGS)
    return "the pressures read with all shut are lost in what dial or logger may err by: shut her in at a higher pressure";
  return readings.length < LEAST_READINGS
    ? `too few pressures were read with all shut and steam still up: ${HOW} once the fire is out`
    : "the boiler was shut in for too short a time: leave it so for five minutes or more";
}

const NEVER: Partial<Record<Disturbed, readonly [state: string, words: string]>> = {
  fire: ["lit", "the fire was written as lit and never as put out: say when it is out"],
  regulator: ["open", "the regulator was written as open and never as shut: say when it is shut"],
  blower: ["on", "the blower was written as on and never as off: say when it is off"],
  valve: ["lifts", "the safety valve was written as lifting and never as reseated: say when it reseats"],
};
const DONE: Record<Disturbed, string> = {
  fire: "the fire burnt",
  regulator: "steam was let to the engine",
  blower: "the blower was on",
  valve: "the safety valve blew",
  feed: "she was fed",
  blowdown: "she was blown down",
  fill: "she was filled",
  drained: "water was let out",
};

/** What was done without which enough would have been read: one thing if it alone was it, else all of them. Null where none was. */
function whatDisturbed(from: Sources): string | null {
  const enoughBut = (but: readonly Disturbed[]): boolean => {
    const window = shutInWindow(from, but);
    return window !== null && enoughRead(coolingReadings(from, ...window));
  };
  const all = Object.keys(DONE) as Disturbed[];
  if (!enoughBut(all)) return null;
  const alone = all.find((one) => enoughBut([one]));
  const kinds = alone === undefined ? all.filter((one) => wasDone(from, one)) : [alone];
  const never = kinds.flatMap((kind) => {
    const [state, words] = NEVER[kind] ?? [];
    const last = from.timeline.entries.findLast((entry) => entry.kind === kind);
    return words !== undefined && last !== undefined && "state" in last && last.state === state
      ? [words]
      : [];
  });
  return (
    never[0] ??
    `${kinds.map((kind) => DONE[kind]).join(" and ")} while all else was shut, and too few pressures were read between: leave her alone once the fire is out, and ${HOW}`
  );
}

/** Once she was first shut in. */
function wasDone(from: Sources, kind: Disturbed): boolean {
  const fromS = shutInStretches(from)[0]?.[0] ?? Number.POSITIVE_INFINITY;
  return from.timeline.entries.some(
    (entry) => entry.atS > fromS && (entry.kind === kind || (kind === "regulator" && entry.kind === "lap")),
  );
}
