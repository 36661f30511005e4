import { boilerGeometry } from "../boiler/geometry.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import { absent, difference, exact, type Measured, measured } from "../quantity/measured.ts";
import { quotient } from "../quantity/product-and-quotient.ts";
import { type Reported, reported } from "../quantity/reported.ts";
import { roundedUp } from "./rounding.ts";
import type { RunFigures } from "./run-figures.ts";

/** Volumetric efficiency of an axle pump nobody measured (practice: worn balls and seats to new ones). */
const PUMP_EFFICIENCY = { value: 0.6, u: 0.3 };
/** Error of a boiler's volume by its drawing, and of a hand pump's stroke where none is given (our estimates). */
const VOLUME_U = 0.03;
const STROKE_U = 0.05;

export interface Feeding {
  /** whether water of a tank can be put in while there is steam */
  underPressure: boolean;
  /** whether, without that, a bottle has fed her while she ran */
  byBottle: boolean;
  handPumpStrokes: { emptyToHighest: Reported; lowestToHighest: Reported };
  axlePump: { delivers: Reported; returned: Reported };
}

/** Water between two readings of the glass, ml at their own temperature; from `null`, empty. */
export function boilerMl(locomotive: Locomotive, fromMm: number | null, toMm: number): number {
  const geometry = boilerGeometry(locomotive.boiler);
  const below = fromMm === null ? 0 : geometry.waterM3AtLevelMm(fromMm);
  return (geometry.waterM3AtLevelMm(toMm) - below) * 1e6;
}

/** Strokes of the hand pump that fill the boiler, and what the axle pump gives beyond the demand. */
export function feedingOf(
  locomotive: Locomotive,
  runs: readonly RunFigures[],
  demandMlPerMinute: Measured | null,
): Feeding {
  const hasPump = locomotive.handPump !== undefined || locomotive.axlePump !== undefined;
  const underPressure = hasPump || runs.some(({ fedInSteam: by }) => by !== undefined && by !== "bottle");
  return {
    underPressure,
    byBottle: !underPressure && runs.some(({ fedInSteam }) => fedInSteam === "bottle"),
    handPumpStrokes: handPump(locomotive),
    axlePump: axlePump(locomotive, runs, demandMlPerMinute),
  };
}

function handPump(locomotive: Locomotive): Feeding["handPumpStrokes"] {
  const pump = locomotive.handPump;
  if (pump === undefined) {
    const none = reported(absent("the engine has no hand pump"));
    return { emptyToHighest: none, lowestToHighest: none };
  }
  const { lowestLevelMm, highestLevelMm } = locomotive.boiler;
  const stroke = measured(
    pump.mlPerStroke,
    pump.uMlPerStroke ?? STROKE_U * pump.mlPerStroke,
    "ml",
    "ml a stroke",
  );
  const strokes = (fromMm: number | null) => {
    const ml = boilerMl(locomotive, fromMm, highestLevelMm);
    return reported(quotient(measured(ml, VOLUME_U * ml, "ml", "the boiler's volume"), stroke, "1"));
  };
  return { emptyToHighest: strokes(null), lowestToHighest: strokes(lowestLevelMm) };
}

function axlePump(
  locomotive: Locomotive,
  runs: readonly RunFigures[],
  demand: Measured | null,
): Feeding["axlePump"] {
  const without = (why: string) => ({ delivers: reported(absent(why)), returned: reported(absent(why)) });
  const pump = locomotive.axlePump;
  if (pump === undefined) return without("the engine has no axle pump");
  const wheelMm = locomotive.drivingWheelMm;
  const speeds = runs.flatMap(({ metresPerMinute }) => (metresPerMinute === null ? [] : [metresPerMinute]));
  if (wheelMm === undefined) return without("the driving wheel's diameter is not recorded");
  if (speeds.length === 0) return without("no run tells how fast she runs");
  const metresPerMinute = speeds.reduce((a, b) => a + b, 0) / speeds.length;
  const turns = (metresPerMinute * 1000) / (Math.PI * wheelMm);
  const perTurn = perTurnOf(pump, runs);
  const delivers: Measured = {
    value: perTurn.value * turns,
    unit: "ml/min",
    parts: perTurn.parts.map((part) => ({ ...part, u: part.u * turns })),
  };
  if (demand === null)
    return { delivers: reported(delivers), returned: reported(absent("no run tells the demand")) };
  const over = difference(delivers, demand);
  const why = `the pump falls ${roundedUp(-over.value, 1).toFixed(1)} ml/min short of the demand: nothing returns`;
  return {
    delivers: atLeastNothing(reported(delivers)),
    returned: over.value < 0 ? reported(absent(why)) : atLeastNothing(reported(over)),
  };
}

/** Water does not flow backwards: the range of a flow ends at nothing. */
const atLeastNothing = (flow: Reported): Reported =>
  flow.value === null ? flow : { ...flow, lo95: Math.max(0, flow.lo95) };

/** ml a revolution: measured where a run tells it, else swept volume x a usual efficiency. */
function perTurnOf(pump: NonNullable<Locomotive["axlePump"]>, runs: readonly RunFigures[]): Measured {
  const told = runs.flatMap(({ pumpPerRevolution }) =>
    pumpPerRevolution.value === null ? [] : [pumpPerRevolution],
  );
  if (told.length > 0) {
    const value = told.reduce((sum, one) => sum + one.value, 0) / told.length;
    const u = Math.hypot(...told.map((one) => one.u)) / told.length;
    return measured(value, u, "ml", "the pump's measured delivery");
  }
  const sweptMl = ((Math.PI / 4) * pump.ramMm ** 2 * pump.strokeMm * pump.strokesPerRev) / 1000;
  return measured(
    PUMP_EFFICIENCY.value * sweptMl,
    PUMP_EFFICIENCY.u * sweptMl,
    "ml",
    "the pump's efficiency, not measured",
  );
}

export const asDemand = (mlPerMinute: number, u: number): Measured =>
  u > 0 ? measured(mlPerMinute, u, "ml/min", "the runs' demand") : exact(mlPerMinute, "ml/min");
