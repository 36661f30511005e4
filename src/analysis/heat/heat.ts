import { cutAt } from "../../quantity/cut-at.ts";
import {
  absent,
  type Figure,
  isMeasured,
  measured,
  measuredWithShared,
  sum,
} from "../../quantity/measured.ts";
import { product } from "../../quantity/product-and-quotient.ts";
import { waterState } from "../../steam/region1.ts";
import { whyNoFire } from "../fuel/fuel-course.ts";
import { fuelProperties } from "../fuel/fuel-table.ts";
import { ratio } from "../ratio.ts";
import type { Sources } from "../sources.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";
import { heldCold } from "../state/held-cold.ts";
import { sharedSource } from "../state/instruments.ts";
import { drawnWithin, type Water } from "../water/water.ts";
import { leaksBoiling } from "./boiling-leaks.ts";
import { energyRise } from "./energy-rise.ts";
import { factorOf, type Piece, pieces } from "./factor-of-evaporation.ts";

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
  const useful = usefulOf(from, water, parts, feedJPerKg);
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
  const factorOfEvaporation = factorOf(from, water, { parts, steamS, feedJPerKg });
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

/** Rise of what is stored and what was carried off above the feed that replaced it, J. */
function usefulOf(from: Sources, water: Water, parts: readonly Piece[], feedJPerKg: number): Figure {
  const [fromS, toS] = [parts[0]?.fromS ?? 0, parts.at(-1)?.toS ?? 0];
  const boiling = leaksBoiling(from.locomotive);
  const ofDrawn = (jPerKg: (piece: Piece) => number) =>
    parts.flatMap((piece) => {
      const jPerG = jPerKg(piece) / 1000;
      return [[piece.toS, jPerG] as const, [piece.fromS, -jPerG] as const];
    });
  const leaked = ({ jPerKg, waterJPerKg }: Piece) => boiling * (jPerKg - waterJPerKg);
  const risen = energyRise(from, water, {
    fromS,
    toS,
    unit: "J",
    lessJPerG: feedJPerKg / 1000,
    drawn: ofDrawn((piece) => piece.jPerKg - leaked(piece) - feedJPerKg),
    plusJ: blownDownJ(from, water, fromS, toS, feedJPerKg),
  });
  if (!isMeasured(risen) || boiling === 0) return risen;
  const uLeakedJ = Math.abs(water.balance?.value({ unit: "J", drawn: ofDrawn(leaked) }) ?? 0);
  return sum(risen, measured(0, uLeakedJ, "J", "boiling water that leaked"));
}

/** Heat that blown-down water carried off above that of the feed which replaced it, J. */
function blownDownJ(from: Sources, water: Water, fromS: number, toS: number, feedJPerKg: number): number {
  return water.input.moves
    .filter((move) => move.grams < 0 && move.atS > fromS && move.atS <= toS)
    .reduce(
      (joules, move) =>
        joules - move.grams * 1e-3 * (from.stateAt(move.atS).water.enthalpyJPerKg - feedJPerKg),
      0,
    );
}
