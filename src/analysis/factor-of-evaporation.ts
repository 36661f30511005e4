import {
  absent,
  combined,
  type Figure,
  measured,
  scaled,
  standardUncertainty,
} from "../quantity/measured.ts";
import { HEAT_FROM_AND_AT_100_C_J_PER_KG } from "../steam/factor-of-evaporation.ts";
import { meanByFlow, unseenBetween, withValve } from "./flow-pressure.ts";
import { meanPressureBar } from "./pressure-at.ts";
import type { Sources } from "./sources.ts";
import type { Water } from "./water.ts";

/** Enthalpy of steam of the recorded dryness at a mean gauge pressure, J/kg: hf + x hfg. */
function carriedOffJPerKg(from: Sources, barG: number): number {
  const { water, steam } = from.stateAtPressure(Math.max(barG, 0));
  const hf = water.enthalpyJPerKg;
  return hf + from.around.dryness * (steam.enthalpyJPerKg - hf);
}

interface Piece {
  fromS: number;
  toS: number;
  jPerKg: number;
  raising: boolean;
}

/** Pieces of the window in which steam left at about one pressure. */
export function pieces(from: Sources, fromS: number, toS: number, steamS: number): Piece[] {
  const points = withValve(from);
  const changes = from.phases.flatMap((phase) => [phase.fromS, phase.toS]);
  const bounds = [...new Set([fromS, ...changes.filter((atS) => atS > fromS && atS < toS), toS])];
  return bounds.slice(1).map((end, i) => {
    const start = bounds[i] as number;
    const barG = meanByFlow(points, from, Math.min(Math.max(start, steamS), end), end);
    const within = from.phases.find((phase) => phase.fromS <= start && phase.toS >= end);
    const raising = within?.name === "raising";
    return { fromS: start, toS: end, jPerKg: carriedOffJPerKg(from, barG), raising };
  });
}

/** Of the pressure's spread, how far the mean by mass may lie from that by time (our estimate). */
const WITHIN_PHASES = 0.2;

/** An atmosphere that nobody recorded is a standard one, give or take weather and 150 m of height, bar (our estimate). */
const U_ATMOSPHERE_BAR = 0.02;

/** While steam is raised with all shut little leaves: as a part of what leaves later in as long a time (our estimate). */
const RAISING_DRAWS = 0.1;
/** Of the doubt of a draught in raising that is not believed, what stays (our choice). */
const STILL_DOUBTED = 0.3;
/** Where nothing tells what was drawn when, the mean lies so far off, as a part of the spread (our choice). */
const NOT_TOLD = 0.5;

/** Mean heat of the steam by what was drawn in each piece, J/kg, and its standard uncertainty for what is not known of that. */
function meanByDrawn(parts: readonly Piece[], { balance }: Water, steamS: number): [mean: number, u: number] {
  const window = ({ fromS, toS }: Piece, scale = 1) => [[toS, scale] as const, [fromS, -scale] as const];
  /** of what the readings say left in each: the part that is believed, and that of its doubt that stays */
  const told = parts.map((piece) => {
    const read = balance?.estimate({ unit: "g", drawn: window(piece) }) ?? null;
    const grams = Math.max(0, read?.value ?? 0);
    if (!piece.raising || read === null) return { grams, doubt: 1 };
    // usually nothing left: what does not stand out of its doubt is most likely none
    const believed = grams ** 2 / (grams ** 2 + standardUncertainty(read) ** 2);
    return { grams: believed * grams, doubt: believed + STILL_DOUBTED * (1 - believed) };
  });
  const mean = (weights: readonly number[], of = (one: Piece) => one.jPerKg) => {
    const total = weights.reduce((a, b) => a + b);
    return parts.reduce((sum, piece, i) => sum + ((weights[i] as number) / total) * of(piece), 0);
  };
  const grams = told.map((one) => one.grams);
  const total = grams.reduce((a, b) => a + b);
  if (total > 0) {
    const jPerKg = mean(grams);
    const drawn = parts.flatMap((piece, i) =>
      window(piece, ((piece.jPerKg - jPerKg) * (told[i]?.doubt ?? 1)) / total),
    );
    const read = balance?.estimate({ unit: "J/kg", drawn }) ?? null;
    if (read !== null) return [jPerKg, standardUncertainty(read)];
  }
  const seconds = parts.map(({ fromS, toS, raising }) => {
    const inSteamS = Math.max(0, toS - Math.max(fromS, steamS));
    return raising ? RAISING_DRAWS * inSteamS : inSteamS;
  });
  if (seconds.every((one) => one === 0)) return [mean(parts.map(({ fromS, toS }) => toS - fromS)), 0];
  const jPerKg = mean(seconds);
  return [jPerKg, NOT_TOLD * Math.sqrt(mean(seconds, (one) => (one.jPerKg - jPerKg) ** 2))];
}

/** Factor of evaporation (h_out - h_feed)/hfg(100 °C), weighed by what was drawn where. */
export function factorOf(
  from: Sources,
  water: Water,
  {
    parts,
    steamS,
    toS,
    feedJPerKg,
  }: { parts: readonly Piece[]; steamS: number; toS: number; feedJPerKg: number },
): Figure {
  if (from.pressure.points.length === 0) return absent("no pressure was read");
  const [jPerKg, uWeights] = meanByDrawn(parts, water, steamS);
  const mean = meanPressureBar(from, steamS, toS);
  // on its pin a pointer may stand for as much as it errs by
  const { pressureReadingBar, pressureBiasBar } = from.errors;
  const atNone = measured(0, Math.hypot(pressureReadingBar, pressureBiasBar), "bar", "pressure readings");
  const airKnown = from.steaming.conditions?.atmosphereHPa !== undefined;
  const meanBarG = from.pressure.meanOver(steamS, toS) ?? 0;
  const slopePerBar = (carriedOffJPerKg(from, meanBarG + 0.1) - carriedOffJPerKg(from, meanBarG)) / 0.1;
  // within a phase steam leaves at other pressures than their mean over time
  const read = from.pressure.points.flatMap(([atS, barG]) => (atS >= steamS && atS <= toS ? [barG] : []));
  const spread = Math.sqrt(
    read.reduce((sum, barG) => sum + (barG - meanBarG) ** 2, 0) / Math.max(1, read.length),
  );
  const unseen = unseenBetween(withValve(from), from, steamS, toS);
  return scaled(
    combined(jPerKg - feedJPerKg, "J/kg", [
      [mean.value === null ? atNone : mean, slopePerBar],
      [measured(0, airKnown ? 0 : U_ATMOSPHERE_BAR, "bar", "air pressure, not recorded"), slopePerBar],
      [
        measured(0, Math.hypot(WITHIN_PHASES * spread, unseen), "bar", "pressure at which steam left"),
        slopePerBar,
      ],
      [measured(0, uWeights, "J/kg", "what was drawn at which pressure"), 1],
    ]),
    1 / HEAT_FROM_AND_AT_100_C_J_PER_KG,
    "1",
  );
}
