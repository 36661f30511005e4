import { stretchesOf } from "../../logbook/timeline.ts";
import {
  absent,
  difference,
  type Figure,
  isMeasured,
  type Measured,
  measured,
  scaled,
  standardUncertainty,
} from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { lengthS, type Stretch, underWayStretches, without } from "../state/phases.ts";
import { drawnWithin, type Water } from "../water/water.ts";
import { nothingGivenBack } from "./nothing-given-back.ts";
import { LEAKS, unnotedValve } from "./takes-besides.ts";

/** Near its lift is from this part of working pressure, as far as the dial may show too little of it. */
const NEAR_LIFT = { fromPartOfWorking: 0.9, doubts: 2 };
/** Her own draught is told by the rest of the run if the valve and the blower left at least this part of it. */
const LEAST_CLEAR = 0.25;

/** So many of its standard uncertainties, at least, for what the engine drew to be told. */
const LEAST_TOLD = 2;

/**
 * What the engine drew behind the regulator, all running together, g: drawn under way while neither safety valve nor
 * blower took steam, carried over to the whole time under way, less leaks.
 */
export function drawnByEngine(from: Sources, water: Water): Figure {
  const { timeline } = from;
  const underWay = underWayStretches(timeline, from.phases);
  const valve = stretchesOf(timeline, "valve", "lifts");
  const clear = without(without(underWay, valve), stretchesOf(timeline, "blower", "on"));
  const running = from.phases.flatMap(({ name, fromS, toS }): Stretch[] =>
    name === "running" ? [[fromS, toS]] : [],
  );
  const [allS, clearS] = [lengthS(underWay), lengthS(clear)];
  if (!(clearS > LEAST_CLEAR * allS))
    return absent("safety valve or blower took steam nearly all the time she ran");
  const drawn = drawnWithin(water, clear);
  if (!isMeasured(drawn)) return drawn;
  const carried = scaled(drawn, allS / clearS, "g");
  const byEngine = lessOthers(from, carried, underWay);
  if (byEngine.value > LEAST_TOLD * standardUncertainty(byEngine))
    return lessOthers(from, keptWithin(water, carried, [running, underWay, clear]), underWay);
  if (water.unseen !== undefined)
    return absent(
      "it seems that her axle pump fed, of which nothing was written: write down what its tank lost, or when its by-pass is shut and opened",
    );
  return absent(
    clearS < allS
      ? "the safety valve or the blower took steam too while she ran, and the readings of water do not tell it from what the engine drew: read the glass as they open and as they shut"
      : "what the engine drew is lost in the doubt of the readings: read the glass before and after each run, or run for longer",
  );
}

/** What she drew by the time clear of the others, and no more than went in all while running, stops, valve and blower and all. */
function keptWithin(
  { balance, unseen }: Water,
  carried: Measured,
  [running, underWay, clear]: readonly [readonly Stretch[], readonly Stretch[], readonly Stretch[]],
): Measured {
  if (balance === null || unseen !== undefined) return carried;
  const times = lengthS(underWay) / lengthS(clear);
  const over = (windows: readonly Stretch[], by: number) =>
    windows.flatMap(([fromS, toS]) => [[toS, by] as const, [fromS, -by] as const]);
  const all = balance.estimate({ unit: "g", drawn: over(running, 1) });
  const others = balance.estimate({ unit: "g", drawn: [...over(running, 1), ...over(clear, -times)] });
  return all === null || others === null ? carried : nothingGivenBack(carried, others, all);
}

function lessOthers(from: Sources, drawn: Measured, underWay: readonly Stretch[]): Measured {
  const guess = (part: { usual: number; u: number }, name: string) =>
    measured(part.usual * drawn.value, part.u * Math.abs(drawn.value), "g", name);
  const rest = difference(drawn, guess(LEAKS, "leaks while running"));
  const { errors, locomotive } = from;
  const near =
    NEAR_LIFT.fromPartOfWorking * locomotive.workingPressureBarG -
    NEAR_LIFT.doubts * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  const mayHaveLifted = from.pressure.points.some(
    ([atS, barG]) => barG > near && underWay.some(([fromS, toS]) => atS >= fromS && atS <= toS),
  );
  return from.timeline.of("valve").length > 0 || !mayHaveLifted
    ? rest
    : difference(rest, guess(unnotedValve(locomotive), "steam the safety valve may have let go"));
}
