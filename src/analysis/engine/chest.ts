import type { Locomotive } from "../../logbook/locomotive.ts";
import { absent, combined, type Figure, type Measured, measuredWithShared } from "../../quantity/measured.ts";
import { meanByFlow, withValve } from "../heat/flow-pressure.ts";
import { pressureDoubt } from "../pressure/pressure-at.ts";
import type { Sources } from "../sources.ts";
import { lengthS, underWayStretches } from "../state/phases.ts";
import { usualPullOf } from "./pull.ts";

/**
 * Chest pressure is not recorded: at an even pace it is what friction and load ask for. A light engine asks for a quarter of the
 * boiler's gauge pressure, and what merely turns the wheels is a twelfth (our estimates, of double-acting cylinders). But
 * whoever drives with the regulator wide open has in the chest what the boiler has, whatever is asked for: that is the most.
 */
const LIGHT = { usual: 0.25, least: 0.08 };
/** Where all is asked for, ports and passages leave so much of the boiler's pressure, usually and at the least (our estimates). */
const WIRE_DRAWN = { usual: 0.8, least: 0.5 };
/** Mean effective pressure of that in the chest (common practice: the 0.85 in the rule for tractive effort), and its doubt (our estimate). */
const EFFECTIVE = { part: 0.85, relative: 0.1 };
/** A driving wheel nobody measured is so many strokes across (our estimate). */
const WHEEL_STROKES = 2.7;

export type Cylinders = NonNullable<Locomotive["cylinders"]>;

/** Swept by the pistons in one turn of the driving wheel, m3. */
export function sweptPerTurnM3({
  count,
  boreMm,
  strokeMm,
  rodMm = 0,
  doubleActing = true,
}: Cylinders): number {
  const facesMm2 = (Math.PI / 4) * (doubleActing ? 2 * boreMm ** 2 - rodMm ** 2 : boreMm ** 2);
  return count * facesMm2 * strokeMm * 1e-9;
}

/** A pressure in the chest, bar gauge, and what it goes with: the boiler's pressure and what the train asks for, bar a bar. */
export interface Chest {
  barG: number;
  byBoiler: number;
  byTrain: number;
}

/** What the chest has usually, or at the least; at the most it has what the boiler has. */
export function chestOf(
  which: "usual" | "least",
  { doubleActing = true }: Cylinders,
  boilerBarG: number,
  trainBar: number,
): Chest {
  // what pushes once a turn overcomes by that the friction that another does by pushing twice
  const light = LIGHT[which] * (doubleActing ? 1 : 2);
  const asked = light * boilerBarG + trainBar;
  const left = WIRE_DRAWN[which];
  return asked < left * boilerBarG
    ? { barG: asked, byBoiler: light, byTrain: 1 }
    : { barG: left * boilerBarG, byBoiler: left, byTrain: 0 };
}

/** What the train asks for besides, bar: its pull over the way of one turn is the work of the mean effective pressure. */
export function trainBar(from: Sources, cylinders: Cylinders): Measured {
  const { drivingWheelMm = WHEEL_STROKES * cylinders.strokeMm, id } = from.locomotive;
  const pull = usualPullOf(from);
  const perNewton = (Math.PI * drivingWheelMm) / 1000 / (EFFECTIVE.part * sweptPerTurnM3(cylinders)) / 1e5;
  const bar = perNewton * pull.value;
  const source = `mean effective pressure of ${id}`;
  const push = measuredWithShared(
    0,
    EFFECTIVE.relative * Math.abs(bar),
    "bar",
    "how well the cylinders push",
    source,
  );
  return combined(bar, "bar", [
    [pull, perNewton],
    [push, 1],
  ]);
}

/** The boiler's pressure while she was under way, which the chest's is never above, bar gauge. */
export function boilerWhileRunning(from: Sources): Figure {
  const underWay = underWayStretches(from.timeline, from.phases);
  const points = [...withValve(from), ...from.pressure.away];
  const barSeconds = underWay.reduce(
    (sum, [fromS, toS]) => sum + meanByFlow(points, from, fromS, toS) * (toS - fromS),
    0,
  );
  const barG = barSeconds / lengthS(underWay);
  if (!(barG > 0)) return absent("no pressure was read while she ran");
  const [startS, endS] = [underWay[0]?.[0] ?? 0, underWay.at(-1)?.[1] ?? 0];
  return { value: barG, unit: "bar", parts: pressureDoubt(from, points, startS, endS) };
}
