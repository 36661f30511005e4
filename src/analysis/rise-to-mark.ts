import { abscissaOf, fittedLine, heightAt, type Line, type LinePoint } from "../statistics/line-fit.ts";
import type { Sources } from "./sources.ts";

/** When the pressure came up to a mark. */
export interface Reached {
  atS: number;
  /** standard uncertainty of that moment, s */
  uS: number;
  /** how much later a dial that reads high by its standard uncertainty makes that moment, s */
  dialS: number;
}

/** The pace now is that of the readings of so many last seconds, or of so many last readings. */
const RECENT_S = 120;
const FEWEST = 3;
/** Readings this near to one another leave little to guess between them, s. */
const NARROW_S = 30;
/** Of a fire's rate, that it may change while nothing is read (our estimate, relative standard uncertainty). */
const FIRE_STRAYS = 0.2;
/** A safety valve that lifts was brought to about this part of working pressure (our choice), with its doubt. */
const LIFTS_AT = { mean: 1.03, u: 0.03 };
/** A pressure that was up and sank while nobody looked (valve, cold feed) stays above this part of the mark (our choice). */
const HELD = 0.75;

/** Where in a wide gap the mark was passed, the straight line tells to this part of the gap: a fire is eased near the mark. */
const BENT = 0.15;
/** So many standard uncertainties below the line a reading is off the rise. */
const BEYOND_DOUBT = 2.5;

/** A reading on the rise: seconds, and boiling temperature with its standard uncertainty. */
type Risen = LinePoint & { barG: number };

/**
 * When the pressure came up to a mark, from readings between two moments. Under a steady fire the boiling temperature
 * rises along a nearly straight line, so the moment is where the line through the readings of the rise meets the mark:
 * between readings a safety valve may have stopped the rise and let the pressure sink again.
 * @returns null where it was not reached, or nothing tells
 */
export function riseToMark(from: Sources, barG: number, fromS: number, untilS: number): Reached | null {
  const { errors, around, pressure } = from;
  const kelvin = (value: number) => around.boilingK(Math.max(value, 0));
  const slopeK = (value: number) =>
    (kelvin(value + 0.05) - kelvin(Math.max(0, value - 0.05))) / (value < 0.05 ? 0.05 + value : 0.1);
  const points: Risen[] = pressure.points
    .filter(([atS, value]) => atS >= fromS && atS <= untilS && value > 0)
    .map(([x, value]) => ({
      x,
      y: kelvin(value),
      uY: Math.max(slopeK(value) * errors.pressureReadingBar, 1e-3),
      barG: value,
    }));
  const lift = from.timeline.of("valve").find((entry) => entry.state === "lifts" && entry.atS >= fromS);
  const traced = from.timeline.traces.some((trace) => trace.channel === "pressureBarG");
  if (lift !== undefined && lift.atS <= untilS && !traced) {
    const at = LIFTS_AT.mean * from.locomotive.workingPressureBarG;
    points.push({
      x: lift.atS,
      y: kelvin(at),
      uY: slopeK(at) * LIFTS_AT.u * from.locomotive.workingPressureBarG,
      barG: at,
    });
    points.sort((a, b) => a.x - b.x);
  }
  if (pressure.firstSteamS !== null && pressure.firstSteamS >= fromS)
    points.unshift({ x: pressure.firstSteamS, y: kelvin(0), uY: slopeK(0.1) * 0.1, barG: 0 });
  return crossing(
    points,
    { barG, kelvin: kelvin(barG), uDialK: slopeK(barG) * errors.pressureBiasBar },
    fireOf(from),
  );
}

/** What else the log tells of the rise. */
interface Fire {
  /** the blower was turned on or off, and the pace changed */
  turnedS: readonly number[];
  /** the owner wrote down when the valve lifted, and it had not yet */
  valveSeenShutUntil(atS: number): boolean;
}

function fireOf({ timeline }: Sources): Fire {
  const lifts = timeline.of("valve").filter((entry) => entry.state === "lifts");
  return {
    turnedS: timeline.of("blower").map((entry) => entry.atS),
    valveSeenShutUntil: (atS) => lifts.length > 0 && lifts.every((lift) => lift.atS >= atS),
  };
}

interface Mark {
  barG: number;
  kelvin: number;
  /** what the dial's bias may move it by, K */
  uDialK: number;
}

function crossing(points: readonly Risen[], mark: Mark, fire: Fire): Reached | null {
  let rise: Risen[] = [];
  for (const point of points) {
    const last = rise.at(-1);
    if (last !== undefined && point.x <= last.x) continue;
    if (last !== undefined && fire.turnedS.some((atS) => atS > last.x && atS < point.x)) rise = [last];
    const line = rise.length < 2 ? null : fittedLine(rise);
    if (last !== undefined && line !== null && line.slope > 0) {
      const expected = heightAt(line, point.x);
      const doubt = Math.hypot(expected.u, point.uY, FIRE_STRAYS * line.slope * (point.x - last.x));
      if (point.y < expected.value - BEYOND_DOUBT * doubt) {
        const meetsS = abscissaOf(line, mark.kelvin, 0).value;
        if (meetsS <= point.x && point.barG > HELD * mark.barG && !fire.valveSeenShutUntil(point.x))
          return momentOn(line, rise, mark);
        // the rise slackened: it goes on from the last of it
        rise = last.y < point.y ? [last] : [];
      }
    }
    if (point.y >= mark.kelvin) return metBy(point, rise, mark, fire);
    rise.push(point);
    while (rise.length > FEWEST && (rise[0] as Risen).x < point.x - RECENT_S) rise.shift();
  }
  return null;
}

/** Met between the last reading below the mark and the first that is not. */
function metBy(point: Risen, rise: readonly Risen[], mark: Mark, fire: Fire): Reached {
  const last = rise.at(-1);
  if (last === undefined) return { atS: point.x, uS: 0, dialS: 0 };
  const gapS = point.x - last.x;
  if (gapS <= NARROW_S) {
    const near = [...rise.filter((one) => one.x > point.x - 2 * NARROW_S), point];
    return momentOn(fittedLine(near), near, mark);
  }
  const line = momentOn(fittedLine([last, point]), [last, point], mark);
  const straight = { ...line, uS: Math.hypot(line.uS, BENT * gapS) };
  const before = rise.length < 2 ? null : fittedLine(rise);
  const byPaceS =
    before === null || !(before.slope > 0) ? straight.atS : abscissaOf(before, mark.kelvin, 0).value;
  if (fire.valveSeenShutUntil(point.x) || byPaceS >= straight.atS) return straight;
  // the valve may have held it in between: half way from the pace before to the straight line
  const earliestS = Math.max(byPaceS, last.x);
  const half = (straight.atS - earliestS) / 2;
  return { ...straight, atS: earliestS + half, uS: Math.hypot(straight.uS, half / Math.sqrt(3)) };
}

/** Where the line meets the mark; u is enlarged where the readings scatter more than their errors let expect. */
function momentOn(line: Line, rise: readonly Risen[], mark: Mark): Reached {
  const { value: atS, u } = abscissaOf(line, mark.kelvin, 0);
  const scatter = line.free > 0 ? Math.max(1, Math.sqrt(line.chiSquared / line.free)) : 1;
  const nearestS = Math.min(...rise.map((point) => Math.abs(point.x - atS)));
  return { atS, uS: Math.hypot(u * scatter, FIRE_STRAYS * nearestS), dialS: -mark.uDialK / line.slope };
}
