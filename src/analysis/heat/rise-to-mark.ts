import { abscissaOf, fittedLine, heightAt, type Line, type LinePoint } from "../../statistics/line-fit.ts";
import type { Sources } from "../sources.ts";
import { FASTER } from "../state/lighting.ts";
import { type Fire, fireOf, LIFTS_AT } from "./raising-fire.ts";

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
export const NARROW_S = 30;
/** Of a fire's rate, that it may change while nothing is read (our estimate, relative standard uncertainty). */
export const FIRE_STRAYS = 0.2;
/** A pace is told where its standard uncertainty is less than this part of it (our choice). */
export const PACE_TOLD = 0.25;
/** A pressure that was up and sank while nobody looked (valve, cold feed) stays above this part of the mark (our choice). */
const HELD = 0.75;

/** Where in a wide gap the mark was passed, the straight line tells to this part of the gap: a fire is eased near the mark. */
export const BENT = 0.15;
/** With the blower off a fire goes on at least so many times slower (our estimate). */
const EASED = 3;
/** So many standard uncertainties below the line a reading is off the rise. */
const BEYOND_DOUBT = 2.5;

/** The hotter she is the more she loses, so after boiling the same fire never warms her faster than before: so many times as fast before, at the least. */
const NEVER_FASTER = 1;

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
  const fire = fireOf(from, fromS);
  const uDialK = slopeK(barG) * errors.pressureBiasBar;
  return crossing(points, { barG, kelvin: kelvin(barG), uDialK }, fire);
}

/**
 * Whether a pressure was met unseen before a moment, if the fire went on as it did until the reading before: even by the
 * slowest pace that she can have had since she was lit it would have been.
 */
export function metUnseen(from: Sources, barG: number, [fromS, atS]: readonly [number, number]): boolean {
  const metS = fireOf(from, fromS).byPaceS(from.around.boilingK(barG), atS, FASTER.most);
  return metS !== null && metS < atS - NARROW_S;
}

interface Mark {
  barG: number;
  kelvin: number;
  /** what the dial's bias may move it by, K */
  uDialK: number;
}

function crossing(points: readonly Risen[], mark: Mark, fire: Fire): Reached | null {
  let rise: Risen[] = [];
  /** the rise until the blower was turned off: she came no faster after it */
  let eased: readonly Risen[] = [];
  for (const [i, point] of points.entries()) {
    let last = rise.at(-1);
    if (last !== undefined && point.x <= last.x) continue;
    const turned = fire.turned.find(({ atS }) => last !== undefined && atS > last.x && atS <= point.x);
    if (last !== undefined && turned !== undefined) {
      const met = turned.state === "off" ? metAsEased(rise, point, turned.atS) : null;
      if (met !== null) return met;
      // the new pace is told from the reading that is nearer to its beginning, of two below the mark
      eased = turned.state === "off" ? rise : [];
      const fromLast = point.y >= mark.kelvin || turned.atS - last.x < point.x - turned.atS;
      rise = fromLast ? [last] : [];
      last = rise.at(-1);
    }
    const line = rise.length < 2 ? null : fittedLine(rise);
    if (last !== undefined && line !== null && line.slope > 0) {
      const expected = heightAt(line, point.x);
      const doubt = Math.hypot(expected.u, point.uY, FIRE_STRAYS * line.slope * (point.x - last.x));
      if (point.y < expected.value - BEYOND_DOUBT * doubt) {
        const meetsS = abscissaOf(line, mark.kelvin, 0).value;
        const unseen = point.y < mark.kelvin && (point.x - last.x > NARROW_S || point.y < last.y);
        if (
          unseen &&
          meetsS <= point.x &&
          point.barG > HELD * mark.barG &&
          !fire.valveSeenShutUntil(point.x)
        ) {
          const met = momentOn(line, rise, mark);
          const slowly = point.y >= last.y ? risesOn(points.slice(i)) : null;
          return slowly === null || slowly.atS <= met.atS ? met : between(met.atS, slowly);
        }
        if (point.y >= mark.kelvin) {
          if (misread(point, points[i + 1])) continue;
          return metBy(point, [last], rise, mark, fire);
        }
        // the rise slackened: it goes on from the last of it
        rise = last.y < point.y ? [last] : [];
      }
    }
    if (point.y >= mark.kelvin) {
      if (misread(point, points[i + 1])) continue;
      return metBy(point, rise, read(rise).length < 2 ? eased : rise, mark, fire);
    }
    if (last !== undefined && heldMeanwhile(point, last, points.slice(i + 1))) {
      const earliestS = earliest(rise, point);
      const straight = momentOn(fittedLine([last, point]), [last, point], mark);
      if (earliestS !== null && earliestS < point.x) return between(earliestS, straight);
    }
    rise.push(point);
    while (rise.length > FEWEST && (rise[0] as Risen).x < point.x - RECENT_S) rise.shift();
  }
  return null;

  /** Below the mark again in half a minute, beyond doubt, though the valve had not lifted yet. */
  function misread(point: Risen, next: Risen | undefined): boolean {
    if (next === undefined || next.x - point.x > NARROW_S || !fire.valveSeenShutUntil(next.x)) return false;
    return next.y < mark.kelvin && next.y < point.y - BEYOND_DOUBT * Math.hypot(point.uY, next.uY);
  }

  /** The earliest that she can have met the mark before a reading, where at most one was read on the rise; null where nothing tells. */
  function earliest(risen: readonly Risen[], point: Risen): number | null {
    const onTheRise = tellsPace(risen) ? read(risen).length : Math.min(1, read(risen).length);
    if (onTheRise > 1) return null;
    const byPaceS = fire.byPaceS(mark.kelvin, point.x, NEVER_FASTER) ?? meetsS(eased, mark);
    const mayBeAt = point.y >= mark.kelvin - BEYOND_DOUBT * Math.hypot(point.uY, mark.uDialK);
    return byPaceS ?? (onTheRise === 0 && mayBeAt ? fire.lastReadS(point.x) : null);
  }

  /** Where a rise that slackened came up to the mark all the same beyond doubt, never falling on the way. */
  function risesOn([point, ...later]: readonly Risen[]): Reached | null {
    let before = point as Risen;
    let met: Reached | null = null;
    const beyond = (one: Risen, other: Risen) => BEYOND_DOUBT * Math.hypot(one.uY, other.uY);
    for (const next of later) {
      if (next.y < before.y - beyond(before, next)) return null;
      if (met === null && next.y >= mark.kelvin)
        met = momentOn(fittedLine([before, next]), [before, next], mark);
      if (met !== null && next.y > (point as Risen).y + beyond(point as Risen, next)) return met;
      before = next;
    }
    return null;
  }

  /**
   * The blower is turned off when there is steam enough: where even a third of the pace until then would have met the mark well
   * before the next reading, which stands beyond doubt lower than that pace had already come, a valve stopped it there.
   */
  function metAsEased(risen: readonly Risen[], point: Risen, easedS: number): Reached | null {
    const line = risen.length < 2 ? null : fittedLine(risen);
    if (line === null || line.slope <= 0 || fire.valveSeenShutUntil(point.x)) return null;
    const met = momentOn(line, risen, mark);
    const slowlyS = Math.max(0, met.atS - easedS) * (EASED - 1);
    if (met.atS + slowlyS > point.x || point.barG <= HELD * mark.barG) return null;
    const came = heightAt(line, easedS);
    const doubt = Math.hypot(
      came.u,
      point.uY,
      FIRE_STRAYS * line.slope * (easedS - (risen.at(-1) as Risen).x),
    );
    if (point.y >= Math.min(mark.kelvin, came.value - BEYOND_DOUBT * doubt)) return null;
    return between(met.atS, { ...met, atS: met.atS + slowlyS });
  }

  /**
   * read near the mark after a wide gap, and no higher in as long a time after it, nor next by half the pace in the gap: a
   * valve may hold it there since long
   */
  function heldMeanwhile(point: Risen, last: Risen, later: readonly Risen[]): boolean {
    const gapS = point.x - last.x;
    if (gapS <= NARROW_S || point.barG <= HELD * mark.barG || fire.valveSeenShutUntil(point.x)) return false;
    const rises = (next: Risen) => next.y >= point.y + BEYOND_DOUBT * Math.hypot(point.uY, next.uY);
    const goesOn = (next: Risen) =>
      next.y - point.y >= ((point.y - last.y) / gapS) * (next.x - point.x) * 0.5;
    return (
      point.y > last.y &&
      !later.some((next, i) => rises(next) && (next.x - point.x <= gapS || (i === 0 && goesOn(next))))
    );
  }
}

/** Readings that lie within half a minute tell a pace only where it comes out of their errors. */
function tellsPace(rise: readonly Risen[]): boolean {
  const [first, last] = [rise[0], rise.at(-1)];
  if (rise.length < 2 || first === undefined || last === undefined) return false;
  const line = fittedLine(rise);
  return last.x - first.x > NARROW_S || line.uSlope < PACE_TOLD * line.slope;
}

const read = (rise: readonly Risen[]): readonly Risen[] => rise.filter(({ barG }) => barG > 0);

/** Anywhere between the earliest and a later moment. */
function between(earliestS: number, later: Reached): Reached {
  const half = (later.atS - earliestS) / 2;
  return { ...later, atS: earliestS + half, uS: Math.hypot(later.uS, half / Math.sqrt(3)) };
}

/** Met between the last reading below the mark and the first that is not. */
function metBy(
  point: Risen,
  rise: readonly Risen[],
  before: readonly Risen[],
  mark: Mark,
  fire: Fire,
): Reached {
  const last = rise.at(-1);
  if (last === undefined) return { atS: point.x, uS: 0, dialS: 0 };
  const gapS = point.x - last.x;
  if (gapS <= NARROW_S) {
    return nearMark([...rise, point], mark);
  }
  const line = fittedLine([last, point]);
  const onLine = momentOn(line, [last, point], mark);
  const straight = { ...onLine, uS: Math.hypot(onLine.uS, BENT * gapS) };
  if (fire.keptUpToLift(line, point.x)) return straight;
  const byPaceS =
    read(before).length < 2
      ? (fire.byPaceS(mark.kelvin, point.x, NEVER_FASTER) ?? meetsS(before, mark))
      : meetsS(before, mark);
  // a valve may have held it in between, or the fire been turned down
  return byPaceS === null || byPaceS >= straight.atS
    ? straight
    : between(Math.max(byPaceS, last.x), straight);
}

/**
 * By the last minute of a rise; where that tells no pace, for the first reading at the mark was chosen for being high, by as much as was
 * kept of it, if that does. A rise that slackened bends the longer line, so it is no surer than the minute.
 */
function nearMark(rise: readonly Risen[], mark: Mark): Reached {
  const last = rise.at(-1) as Risen;
  const [minute, whole] = [rise.filter((one) => one.x > last.x - 2 * NARROW_S), rise].map((read) => {
    const line = fittedLine(read);
    return { moment: momentOn(line, read, mark), told: line.uSlope < PACE_TOLD * line.slope };
  }) as [PaceLine, PaceLine];
  if (minute.told || !whole.told) return minute.moment;
  return { ...whole.moment, uS: Math.max(whole.moment.uS, minute.moment.uS) };
}
type PaceLine = { moment: Reached; told: boolean };

/** Where the pace of a rise meets the mark; null where it does not rise, or none was read. */
function meetsS(rise: readonly Risen[], mark: Mark): number | null {
  if (rise.length < 2) return null;
  const line = fittedLine(rise);
  return line.slope > 0 ? abscissaOf(line, mark.kelvin, 0).value : null;
}

/** Where the line meets the mark; u is enlarged where the readings scatter more than their errors let expect. */
function momentOn(line: Line, rise: readonly Risen[], mark: Mark): Reached {
  const { value: atS, u } = abscissaOf(line, mark.kelvin, 0);
  const scatter = line.free > 0 ? Math.max(1, Math.sqrt(line.chiSquared / line.free)) : 1;
  const nearestS = Math.min(...rise.map((point) => Math.abs(point.x - atS)));
  return { atS, uS: Math.hypot(u * scatter, FIRE_STRAYS * nearestS), dialS: -mark.uDialK / line.slope };
}
