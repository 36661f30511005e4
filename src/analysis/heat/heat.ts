import type { Locomotive } from "../../logbook/locomotive.ts";
import { cutAt } from "../../quantity/cut-at.ts";
import {
  absent,
  difference,
  type Figure,
  isMeasured,
  measured,
  measuredWithShared,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import { product } from "../../quantity/product-and-quotient.ts";
import { waterState } from "../../steam/region1.ts";
import type { SteamState } from "../../steam/state.ts";
import type { FuelCourse, HeatTells } from "../fuel/fuel-course.ts";
import { whyNoFire } from "../fuel/fuel-read.ts";
import { type FuelProperties, fuelProperties } from "../fuel/fuel-table.ts";
import { ratio } from "../ratio.ts";
import type { SheetSources, Sources } from "../sources.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";
import { heldCold } from "../state/held-cold.ts";
import { sharedSource } from "../state/instruments.ts";
import type { Combination } from "../water/balance-factors.ts";
import { drawnWithin, type Water } from "../water/water.ts";
import { leakedBoilingJ } from "./boiling-leaks.ts";
import { energyRise } from "./energy-rise.ts";
import { FEED_NOT_RECORDED, factorOf, type Piece, pieces } from "./factor-of-evaporation.ts";
import { heatUnderWay } from "./heat-under-way.ts";
import { storedEnergyAt } from "./stored-energy.ts";

export interface Heat {
  /** what was burnt, with what the heat tells of it */
  fuel: FuelCourse;
  /** from fire lit to fire out, or the last entry */
  fromS: number;
  toS: number;
  useful: Figure;
  /** heat or work over the heat of the fuel burnt */
  perFuelHeat(joules: Figure): Figure;
  efficiency: Figure;
  evaporationRatio: Figure;
  factorOfEvaporation: Figure;
  equivalentEvaporation: Figure;
}

/** Cold feed is water at whatever it is pressed in with: at this its heat is known to 0.2 kJ/kg. */
const FEED_PA = 2e5;

export function heatOf(from: SheetSources, water: Water): Heat | null {
  const { around, timeline, steaming } = from;
  if (heldCold(steaming, timeline)) return null;
  const fired = timeline.of("fire").length > 0 || from.pressure.points.length > 0;
  if (timeline.of("fuel").length === 0 && (water.input.readings.length === 0 || !fired)) return null;
  const none = absent(whyNoFire(timeline));
  if (from.fuel.fire.length === 0) {
    return {
      fuel: from.fuel,
      fromS: 0,
      toS: 0,
      useful: none,
      perFuelHeat: () => none,
      efficiency: none,
      evaporationRatio: none,
      factorOfEvaporation: none,
      equivalentEvaporation: none,
    };
  }

  const fromS = Math.min(...from.fuel.fire.map(([litS]) => litS));
  const toS = Math.max(...from.fuel.fire.map(([, outS]) => outS));
  const steamS = Math.max(fromS, from.pressure.firstSteamS ?? fromS);
  const feed = waterState(around.feedC + ICE_POINT_K, FEED_PA);
  const parts = pieces(from, fromS, toS, steamS);
  const useful = usefulOf(from, water, { parts, steamS, feed });
  const properties = fuelProperties(from.locomotive.fuel);
  const fuel = from.fuel.toldByHeat({
    ifAll: ifAllBurnt(useful, from.fuel, properties),
    underWay: heatUnderWay(from, water, useful, parts, feed.enthalpyJPerKg),
  });
  const perFuelHeat = (joules: Figure): Figure => {
    const perG = fuel.perBurntG(joules, [[fromS, toS]], "J/g");
    return perG.value === null ? perG : ratio(perG, heatingValue(from.locomotive, properties), "1");
  };
  const drawn = drawnWithin(water, [[fromS, toS]]);
  const factorOfEvaporation = factorOf(from, water, { parts, steamS, feed });
  const evaporationRatio = fuel.perBurntG(drawn, [[fromS, toS]], "g/g");
  const efficiency = perFuelHeat(useful);
  return {
    fuel,
    fromS,
    toS,
    useful,
    perFuelHeat,
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
function usefulOf(
  from: Sources,
  water: Water,
  { parts, steamS, feed }: { parts: readonly Piece[]; steamS: number; feed: SteamState },
): Figure {
  const feedJPerKg = feed.enthalpyJPerKg;
  const [fromS, toS] = [parts[0]?.fromS ?? 0, parts.at(-1)?.toS ?? 0];
  const risen = energyRise(from, water, {
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
  if (!isMeasured(risen)) return risen;
  const inBalance = (what: Combination) => water.balance?.value(what) ?? 0;
  const perG = (from.around.uFeedK * feed.cpJPerKgK) / 1000;
  const fed = [[toS, perG] as const, [fromS, -perG] as const];
  const ofFeedJ = perG === 0 ? 0 : Math.abs(inBalance({ unit: "J", drawn: fed, contents: fed }));
  const steamJPerG = ((parts.at(-1)?.jPerKg ?? 0) - feedJPerKg) / 1000;
  const leaked = leakedBoilingJ(from, parts, steamS, () => ({
    fireGPerMin: (60 * raisedW(from, inBalance, risen.value / (toS - fromS))) / steamJPerG,
    drawnG: inBalance({
      unit: "g",
      drawn: [
        [toS, 1],
        [fromS, -1],
      ],
    }),
  }));
  return difference(sum(risen, measured(0, ofFeedJ, "J", FEED_NOT_RECORDED)), leaked);
}

/** Heat that the fire gave a second while it raised steam; where it raised none, as at other times. */
function raisedW(from: Sources, inBalance: (what: Combination) => number, elseW: number): number {
  const raising = from.phases.find(({ name }) => name === "raising");
  const litS = from.fuel.fire[0]?.[0] ?? 0;
  if (raising === undefined || !(raising.toS > Math.max(litS, raising.fromS))) return elseW;
  const fromS = Math.max(litS, raising.fromS);
  const heatAt = (atS: number) => {
    const { fixedJ, jPerG } = storedEnergyAt(from, atS);
    return fixedJ + inBalance({ unit: "J", contents: [[atS, jPerG]] });
  };
  return Math.max(elseW, (heatAt(raising.toS) - heatAt(fromS)) / (raising.toS - fromS));
}

function heatingValue(locomotive: Locomotive, properties: FuelProperties | null): Figure {
  if (properties === null)
    return absent("the heating value of this fuel is not known: give it with the engine");
  const jPerG = properties.lowerHeatingValueMJPerKg * 1000;
  return measuredWithShared(
    jPerG,
    jPerG * properties.uRelative,
    "J/g",
    "heating value of the fuel",
    sharedSource.heatingValue(locomotive),
  );
}

/** The efficiency had all that was put in been burnt. */
function ifAllBurnt(
  useful: Figure,
  { putInG }: FuelCourse,
  properties: FuelProperties | null,
): HeatTells["ifAll"] {
  if (useful.value === null || properties === null || putInG === null) return null;
  const { lowerHeatingValueMJPerKg, uRelative } = properties;
  return {
    value: useful.value / (putInG * lowerHeatingValueMJPerKg * 1000),
    uRelative: Math.hypot(standardUncertainty(useful) / useful.value, uRelative),
  };
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
