import { cutAt } from "../quantity/cut-at.ts";
import {
  absent,
  combined,
  type Figure,
  isMeasured,
  measured,
  measuredWithShared,
  scaled,
} from "../quantity/measured.ts";
import { product } from "../quantity/product-and-quotient.ts";
import { HEAT_FROM_AND_AT_100_C_J_PER_KG } from "../steam/factor-of-evaporation.ts";
import { waterState } from "../steam/region1.ts";
import { ICE_POINT_K } from "./circumstances.ts";
import { energyRise } from "./energy-rise.ts";
import { meanByFlow, unseenBetween, withValve } from "./flow-pressure.ts";
import { whyNoFire } from "./fuel-course.ts";
import { fuelProperties } from "./fuel-table.ts";
import { heldCold } from "./held-cold.ts";
import { sharedSource } from "./instruments.ts";
import { meanPressureBar } from "./pressure-at.ts";
import { ratio } from "./ratio.ts";
import type { Sources } from "./sources.ts";
import { drawnWithin, type Water } from "./water.ts";

export interface Heat {
  /** from fire lit to fire out, or the last entry */
  fromS: number;
  toS: number;
  useful: Figure;
  fuelHeat: Figure;
  efficiency: Figure;
  evaporationRatio: Figure;
  factorOfEvaporation: Figure;
  equivalentEvaporation: Figure;
}

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
}

/** Pieces of the window in which steam left at about one pressure. */
function pieces(from: Sources, fromS: number, toS: number, steamS: number): Piece[] {
  const points = withValve(from);
  const changes = from.phases.flatMap((phase) => [phase.fromS, phase.toS]);
  const bounds = [...new Set([fromS, ...changes.filter((atS) => atS > fromS && atS < toS), toS])];
  return bounds.slice(1).map((end, i) => {
    const start = bounds[i] as number;
    const barG = meanByFlow(points, from, Math.min(Math.max(start, steamS), end), end);
    return { fromS: start, toS: end, jPerKg: carriedOffJPerKg(from, barG) };
  });
}

/** Cold feed is water at whatever it is pressed in with: at this its heat is known to 0.2 kJ/kg. */
const FEED_PA = 2e5;

export function heatOf(from: Sources, water: Water): Heat | null {
  const { fuel, around, timeline, steaming } = from;
  if (heldCold(steaming, timeline)) return null;
  const fired = timeline.of("fire").length > 0 || from.pressure.points.length > 0;
  if (timeline.of("fuel").length === 0 && (water.input.readings.length === 0 || !fired)) return null;
  const none = absent(whyNoFire(timeline));
  if (fuel.fire.length === 0) {
    return {
      fromS: 0,
      toS: 0,
      useful: none,
      fuelHeat: none,
      efficiency: none,
      evaporationRatio: none,
      factorOfEvaporation: none,
      equivalentEvaporation: none,
    };
  }

  const fromS = Math.min(...fuel.fire.map(([litS]) => litS));
  const toS = Math.max(...fuel.fire.map(([, outS]) => outS));
  const steamS = Math.max(fromS, from.pressure.firstSteamS ?? fromS);
  const feedJPerKg = waterState(around.feedC + ICE_POINT_K, FEED_PA).enthalpyJPerKg;
  const parts = pieces(from, fromS, toS, steamS);
  const useful = energyRise(from, water, {
    fromS,
    toS,
    unit: "J",
    lessJPerG: feedJPerKg / 1000,
    drawn: parts.flatMap((piece) => {
      const jPerG = (piece.jPerKg - feedJPerKg) / 1000;
      return [[piece.toS, jPerG] as const, [piece.fromS, -jPerG] as const];
    }),
    plusJ: blownDownJ(from, water, fromS, toS, feedJPerKg),
  });
  const burnt = fuel.burntG([[fromS, toS]]);
  const properties = fuelProperties(from.locomotive.fuel);
  const fuelHeat: Figure =
    burnt.value === null
      ? burnt
      : properties === null
        ? absent("the heating value of this fuel is not known: give it with the engine")
        : product(
            burnt,
            measuredWithShared(
              properties.lowerHeatingValueMJPerKg * 1000,
              properties.lowerHeatingValueMJPerKg * 1000 * properties.uRelative,
              "J/g",
              "heating value of the fuel",
              sharedSource.heatingValue(from.locomotive),
            ),
            "J",
          );
  const drawn = drawnWithin(water, [[fromS, toS]]);
  const factorOfEvaporation = factorOf(from, water, { parts, steamS, toS, feedJPerKg });
  const evaporationRatio = ratio(drawn, burnt, "g/g");
  const efficiency = ratio(useful, fuelHeat, "1");
  return {
    fromS,
    toS,
    useful,
    fuelHeat,
    efficiency: isMeasured(efficiency) ? cutAt(efficiency, 0, 1) : efficiency,
    evaporationRatio,
    factorOfEvaporation,
    equivalentEvaporation:
      evaporationRatio.value === null
        ? evaporationRatio
        : factorOfEvaporation.value === null
          ? factorOfEvaporation
          : product(evaporationRatio, factorOfEvaporation, "g/g"),
  };
}

/** Heat that blown-down water carried off above that of the feed which replaced it, J. */
function blownDownJ(from: Sources, water: Water, fromS: number, toS: number, feedJPerKg: number): number {
  return water.input.moves
    .filter((move) => move.grams < 0 && move.atS > fromS && move.atS <= toS)
    .reduce(
      (sum, move) => sum - move.grams * 1e-3 * (from.stateAt(move.atS).water.enthalpyJPerKg - feedJPerKg),
      0,
    );
}

/** Of the pressure's spread, how far the mean by mass may lie from that by time (our estimate). */
const WITHIN_PHASES = 0.2;

/** An atmosphere that nobody recorded is a standard one, give or take weather and 150 m of height, bar (our estimate). */
const U_ATMOSPHERE_BAR = 0.02;

/** Factor of evaporation (h_out - h_feed)/hfg(100 °C), weighed by what was drawn where. */
function factorOf(
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
  const drawn = parts.map((piece) => {
    const window = [[piece.toS, 1] as const, [piece.fromS, -1] as const];
    return Math.max(0, water.balance?.value({ unit: "g", drawn: window }) ?? 0);
  });
  const weights = drawn.some((grams) => grams > 0) ? drawn : parts.map((piece) => piece.toS - piece.fromS);
  const total = weights.reduce((a, b) => a + b);
  const jPerKg = parts.reduce((sum, piece, i) => sum + ((weights[i] as number) / total) * piece.jPerKg, 0);
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
    ]),
    1 / HEAT_FROM_AND_AT_100_C_J_PER_KG,
    "1",
  );
}
