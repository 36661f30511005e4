import {
  absent,
  combined,
  type Figure,
  measured,
  scaled,
  standardUncertainty,
} from "../../quantity/measured.ts";
import { HEAT_FROM_AND_AT_100_C_J_PER_KG } from "../../steam/factor-of-evaporation.ts";
import type { SteamState } from "../../steam/state.ts";
import { meanPressureBar } from "../pressure/pressure-at.ts";
import { meanOver } from "../pressure/pressure-over-time.ts";
import type { PressurePoint } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import { onlyLeaked } from "../state/only-leaked.ts";
import type { Water } from "../water/water.ts";
import { byLeaks, draughtsOf, type LeftAt, unseenBetween, withValve } from "./flow-pressure.ts";

/** Enthalpy of boiling water and of steam of the recorded dryness at a gauge pressure, J/kg: hf, and hf + x hfg. */
function carriedAt(from: Sources, barG: number): Pick<Piece, "waterJPerKg" | "jPerKg"> {
  const { water, steam } = from.stateAtPressure(Math.max(barG, 0));
  const hf = water.enthalpyJPerKg;
  return { waterJPerKg: hf, jPerKg: hf + from.around.dryness * (steam.enthalpyJPerKg - hf) };
}

/** Their means where steam left at various pressures: less than at the mean pressure, for the heat grows ever slower with it. */
function carriedOff(from: Sources, { barG, sdBar }: LeftAt): Pick<Piece, "waterJPerKg" | "jPerKg"> {
  const [below, above] = [carriedAt(from, barG - sdBar), carriedAt(from, barG + sdBar)];
  return {
    waterJPerKg: (below.waterJPerKg + above.waterJPerKg) / 2,
    jPerKg: (below.jPerKg + above.jPerKg) / 2,
  };
}

export interface Piece {
  fromS: number;
  toS: number;
  /** heat that a kilogram of what left as steam carried off, and of boiling water */
  jPerKg: number;
  waterJPerKg: number;
  /** what usually leaves in it, as seconds of running */
  usualS: number;
  raising: boolean;
}

/** Pieces of the window in which steam left at about one pressure; where nothing but leaks drew it is one, by the leak's flow. */
export function pieces(from: Sources, fromS: number, toS: number, steamS: number): Piece[] {
  const points = withValve(from);
  if (onlyLeaked(from)) {
    const leak = byLeaks(points, from, Math.min(steamS, toS), toS);
    return [{ fromS, toS, ...carriedOff(from, leak), usualS: toS - fromS, raising: false }];
  }
  const draught = draughtsOf(from, points);
  const changes = from.phases.flatMap((phase) => [phase.fromS, phase.toS]);
  const bounds = [...new Set([fromS, ...changes.filter((atS) => atS > fromS && atS < toS), toS])];
  return bounds.slice(1).map((end, i) => {
    const start = bounds[i] as number;
    const within = from.phases.find((phase) => phase.fromS <= start && phase.toS >= end);
    const startsS = Math.min(Math.max(start, steamS), end);
    const left = draught(startsS, end);
    return {
      fromS: start,
      toS: end,
      ...carriedOff(from, left),
      usualS: left.usual * (end - startsS),
      raising: within?.name === "raising",
    };
  });
}

/** Of the pressure's spread, how far the mean by mass may lie from that by time, and how far from it a reading stands for others (our estimate). */
const WITHIN_PHASES = 0.2;
const A_READING = 0.6;

/** An atmosphere that nobody recorded is a standard one, give or take weather and 150 m of height, bar (our estimate). */
const U_ATMOSPHERE_BAR = 0.02;

/** Of the doubt of a draught in raising that is not believed, what stays (our choice). */
const STILL_DOUBTED = 0.3;
/** Where nothing tells what was drawn when, the mean lies so far off, as a part of the spread (our choice). */
const NOT_TOLD = 0.5;

/**
 * How what was drawn is shared among the pieces, all together 1, and the standard uncertainty of the mean heat for what is not
 * known of that, J/kg.
 */
function sharesOf(parts: readonly Piece[], { balance }: Water): [shares: number[], u: number] {
  if (parts.length === 1) return [[1], 0];
  const window = ({ fromS, toS }: Piece, scale = 1) => [[toS, scale] as const, [fromS, -scale] as const];
  const readG = parts.map((piece) => Math.max(0, balance?.value({ unit: "g", drawn: window(piece) }) ?? 0));
  const later = (of: readonly number[]) => sum(of.filter((_, i) => parts[i]?.raising === false));
  const usualS = parts.map((piece) => piece.usualS);
  const laterGPerS = later(usualS) > 0 ? later(readG) / later(usualS) : 0;
  /** what left in each, and the part of its doubt that stays */
  const told = parts.map((piece, i) => {
    const grams = readG[i] as number;
    const read = piece.raising ? balance?.estimate({ unit: "g", drawn: window(piece) }) : null;
    if (read === null || read === undefined) return { grams, doubt: 1 };
    // a usual draught may as well be twice as much or none; what stands out of the doubt of the readings tells that it was unusual
    const usual = laterGPerS * piece.usualS;
    const u2 = standardUncertainty(read) ** 2;
    const stray2 = usual ** 2 + Math.max(0, (grams - usual) ** 2 - u2);
    const believed = stray2 / (stray2 + u2);
    return {
      grams: believed * grams + (1 - believed) * usual,
      doubt: believed + STILL_DOUBTED * (1 - believed),
    };
  });
  const all = parts.map(({ jPerKg }) => jPerKg);
  const widest = (Math.max(...all) - Math.min(...all)) / Math.sqrt(12);
  const grams = told.map((one) => one.grams);
  const total = sum(grams);
  if (total > 0) {
    const shares = grams.map((one) => one / total);
    const mean = meanBy(shares, all);
    const drawn = parts.flatMap((piece, i) =>
      window(piece, ((piece.jPerKg - mean) * (told[i]?.doubt ?? 1)) / total),
    );
    const read = balance?.estimate({ unit: "J/kg", drawn }) ?? null;
    // the mean lies between the least and the most whatever the readings say
    if (read !== null) return [shares, Math.min(widest, standardUncertainty(read))];
  }
  const inSteam = sum(usualS) > 0 ? usualS : parts.map(({ fromS, toS }) => toS - fromS);
  const shares = inSteam.map((one) => one / sum(inSteam));
  const mean = meanBy(shares, all);
  const square = all.map((one) => (one - mean) ** 2);
  return [shares, NOT_TOLD * Math.sqrt(meanBy(shares, square))];
}

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const meanBy = (shares: readonly number[], values: readonly number[]) =>
  sum(values.map((value, i) => value * (shares[i] as number)));

interface Window {
  parts: readonly Piece[];
  steamS: number;
  feed: SteamState;
}

export const FEED_NOT_RECORDED = "temperature of the feed, not recorded";

/** Factor of evaporation (h_out - h_feed)/hfg(100 °C), weighed by what was drawn where. */
export function factorOf(from: Sources, water: Water, { parts, steamS, feed }: Window): Figure {
  if (from.pressure.points.length === 0) return absent("no pressure was read");
  const [shares, uShares] = sharesOf(parts, water);
  const points = withValve(from);
  const read = parts.map((piece) => pressureOf(from, piece, steamS, points));
  const airKnown = from.steaming.conditions?.atmosphereHPa !== undefined;
  const jPerKg = parts.map((piece) => piece.jPerKg);
  const perBar = read.map(({ slopePerBar }, i) => slopePerBar * (shares[i] as number));
  return scaled(
    combined(meanBy(shares, jPerKg) - feed.enthalpyJPerKg, "J/kg", [
      ...read.flatMap(({ doubts }, i) => doubts.map((doubt) => [doubt, perBar[i] as number] as const)),
      [measured(0, airKnown ? 0 : U_ATMOSPHERE_BAR, "bar", "air pressure, not recorded"), sum(perBar)],
      [measured(0, uShares, "J/kg", "what was drawn at which pressure"), 1],
      [measured(0, from.around.uFeedK * feed.cpJPerKgK, "J/kg", FEED_NOT_RECORDED), 1],
    ]),
    1 / HEAT_FROM_AND_AT_100_C_J_PER_KG,
    "1",
  );
}

/** What is not known of the pressure at which steam left in one piece, and how the steam's heat goes with it, J/kg bar. */
function pressureOf(from: Sources, { fromS, toS }: Piece, steamS: number, points: readonly PressurePoint[]) {
  const startS = Math.min(toS, Math.max(fromS, steamS));
  const { pressure, errors } = from;
  const mean = meanPressureBar(from, startS, toS);
  // on its pin a pointer may stand for as much as it errs by
  const uNone = Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  const meanBarG = meanOver(pressure, startS, toS) ?? 0;
  // within a phase steam leaves at other pressures than their mean over time
  const read = pressure.points.flatMap(([atS, barG]) => (atS >= startS && atS < toS ? [barG] : []));
  const count = Math.max(1, read.length);
  const spread = Math.sqrt(sum(read.map((barG) => (barG - meanBarG) ** 2)) / count);
  const within = spread * Math.hypot(WITHIN_PHASES, A_READING / Math.sqrt(count));
  const unseen = unseenBetween(points, from, startS, toS);
  return {
    slopePerBar: (carriedAt(from, meanBarG + 0.1).jPerKg - carriedAt(from, meanBarG).jPerKg) / 0.1,
    doubts: [
      mean.value === null ? measured(0, uNone, "bar", "pressure readings") : mean,
      measured(0, Math.hypot(within, unseen), "bar", "pressure at which steam left"),
    ],
  };
}
