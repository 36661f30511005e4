import { absent, type Figure, interval, isMeasured, type Measured, scaled } from "../../quantity/measured.ts";
import { product } from "../../quantity/product-and-quotient.ts";
import type { Heat } from "../heat/heat.ts";
import { WHEN_SHE_RAN_UNKNOWN } from "../laps/way.ts";
import { ratio } from "../ratio.ts";
import type { SheetSources } from "../sources.ts";
import type { Stretch } from "../state/phases.ts";
import type { Water } from "../water/water.ts";
import { dryDemandOf } from "./dry-demand.ts";
import { drawnByEngine } from "./engine-drawn.ts";
import { pullOf } from "./pull.ts";

export interface Engine {
  dryDemand: Figure;
  missingQuantity: Figure;
  overallEfficiency: Figure;
}

/** The engine behind the regulator; null where nothing says that she ran. */
export function engineOf(from: SheetSources, water: Water, heat: Heat | null): Engine | null {
  if (!from.phases.some((phase) => phase.name === "running")) {
    if (!(from.laps.countIn(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY) > 0)) return null;
    const unknown = absent(WHEN_SHE_RAN_UNKNOWN);
    return { dryDemand: unknown, missingQuantity: unknown, overallEfficiency: unknown };
  }
  const dryDemand = dryDemandOf(from);
  return {
    dryDemand,
    missingQuantity: missingQuantity(from, water, dryDemand),
    overallEfficiency: overallEfficiency(from, heat),
  };
}

/**
 * (drawn by the engine - dry demand x turns) / drawn by the engine: condensation and leakage past valves and pistons
 * together, so never less than none; where all of the range is less, something was written down wrongly. Its doubt is mostly
 * that of chest pressure, which two runs of one engine share: not its single value says something, but its trend at like
 * pressure and speed.
 */
function missingQuantity(from: SheetSources, water: Water, dryDemand: Figure): Figure {
  if (!isMeasured(dryDemand)) return dryDemand;
  const turns = from.way.turnsIn(ALL_THE_WAY);
  if (!isMeasured(turns)) return turns;
  const byEngine = drawnByEngine(from, water);
  const share = ratio(takenBy(dryDemand, turns), byEngine, "1");
  if (!isMeasured(share)) return share;
  const missing = scaled(share, -1, "1");
  const [low, high] = interval(missing);
  if (1 + high < 0)
    return absent(
      "less was drawn than the cylinders take: look at the counts of laps and turns, the cylinders' sizes and the readings of water",
    );
  const notBelow = (part: number) => Math.max(0, 1 + part);
  return { ...missing, value: notBelow(missing.value), range95: [notBelow(low), notBelow(high)] };
}

/**
 * Dry steam of all turns, g. Turns of an uneven range are those of a gap in the laps, in which she stood or ran: at either end
 * of it, for that is no bell, the demand's own doubt counts in full.
 */
function takenBy(perTurn: Measured, turns: Measured): Measured {
  const grams = product(perTurn, turns, "g");
  if (turns.range95 === undefined) return grams;
  const [least, most] = interval(perTurn);
  const [fewest, mostTurns] = turns.range95;
  return { ...grams, range95: [least * fewest, most * mostTurns] };
}

const ALL_THE_WAY: readonly Stretch[] = [[Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]];

/** Work on the train over the heat of all fuel burnt. Over whole laps a gradient gives back what it took. */
function overallEfficiency(from: SheetSources, heat: Heat | null): Figure {
  const pull = pullOf(from);
  if (!isMeasured(pull)) return pull;
  const metres = from.way.metresIn(ALL_THE_WAY);
  if (!isMeasured(metres)) return metres;
  if (heat === null) return absent("no fuel was recorded");
  return heat.perFuelHeat(product(pull, metres, "J"));
}
