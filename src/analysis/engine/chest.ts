import type { Locomotive } from "../../logbook/locomotive.ts";
import { absent, combined, type Figure, type Measured } from "../../quantity/measured.ts";
import { meanByFlow, withValve } from "../heat/flow-pressure.ts";
import { pressureDoubt } from "../pressure/pressure-at.ts";
import type { Sources } from "../sources.ts";
import { lengthS, underWayStretches } from "../state/phases.ts";
import { NINETY_FIVE, usualPullOf } from "./pull.ts";

/**
 * Chest pressure is not recorded: at an even pace it is what friction and load ask for, as far as the boiler has it. Without a
 * train 95 double-acting engines of 100 ask for this least to this most part of the boiler's gauge pressure, evenly by factors
 * (our estimate): little where the regulator is barely open, much where it is wide open.
 */
const LIGHT = { least: 0.08, most: 0.56 };
const LIKELIEST = Math.sqrt(LIGHT.least * LIGHT.most);
const SPREAD = Math.log(LIGHT.most / LIGHT.least) / (2 * NINETY_FIVE);
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

/** What a light engine asks for, bar gauge, so many standard deviations from the likeliest. */
export const lightBarG = ({ doubleActing = true }: Cylinders, boilerBarG: number, place: number): number =>
  // what pushes once a turn overcomes by that the friction that another does by pushing twice
  LIKELIEST * Math.exp(SPREAD * place) * boilerBarG * (doubleActing ? 1 : 2);

/** What the train asks for besides, bar: its pull over the way of one turn is the work of the mean effective pressure. */
export function trainBar(from: Sources, cylinders: Cylinders): { bar: Measured; uEffective: number } {
  const wheelMm = from.locomotive.drivingWheelMm ?? WHEEL_STROKES * cylinders.strokeMm;
  const pull = usualPullOf(from);
  const perNewton = (Math.PI * wheelMm) / 1000 / (EFFECTIVE.part * sweptPerTurnM3(cylinders)) / 1e5;
  const bar = combined(pull.value * perNewton, "bar", [[pull, perNewton]]);
  return { bar, uEffective: EFFECTIVE.relative * bar.value };
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
