import { metalHeatCapacityJPerK } from "../../boiler/metal.ts";
import { absent, type Figure, type Part } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import type { Combination } from "../water/balance-factors.ts";
import { withUnseen } from "../water/unseen-pump.ts";
import { notTold, type Water } from "../water/water.ts";
import { storedEnergyAt, storedEnergySlope } from "./stored-energy.ts";

export interface RiseWanted {
  fromS: number;
  toS: number;
  unit: string;
  perSecond?: boolean;
  /** J/g to take off for each gram in the boiler, and what else to add: heat brought in and carried off */
  lessJPerG?: number;
  drawn?: Combination["drawn"];
  plusJ?: number;
  /** the pressure at the end is known without the dial: it is the mark that the end was told by */
  endsAtMark?: boolean;
}

const ONLY_CHANGES =
  "weighings tell how the water changed, not how much there was: read the glass, or write down what was filled in";

/**
 * Rise of the heat stored in water, steam and metal between two moments, J (or W), and with it whatever heat was
 * carried off with the drawn. Every reading of water counts once in the whole combination.
 */
export function energyRise(from: Sources, water: Water, wanted: RiseWanted): Figure {
  if (water.balance === null) return absent(water.why);
  if (from.pressure.points.length === 0) return absent("no pressure was read");
  if (water.input.readings.every(({ of }) => of !== "contents")) return absent(ONLY_CHANGES);
  const { fromS, toS } = wanted;
  const less = wanted.lessJPerG ?? 0;
  const start = storedEnergyAt(from, fromS);
  const end = storedEnergyAt(from, toS);
  const scale = wanted.perSecond === true ? 1 / (toS - fromS) : 1;
  const combination: Combination = {
    unit: wanted.unit,
    contents: [
      [toS, scale * (end.jPerG - less)],
      [fromS, -scale * (start.jPerG - less)],
    ],
    drawn: (wanted.drawn ?? []).map(([atS, coefficient]) => [atS, scale * coefficient] as const),
  };
  const linear = water.balance.estimate(combination);
  if (linear === null) return absent(notTold(water));
  const startG = water.balance.value({ unit: "g", contents: [[fromS, 1]] });
  const endG = water.balance.value({ unit: "g", contents: [[toS, 1]] });

  const slopes = [
    storedEnergySlope(from, fromS, startG),
    wanted.endsAtMark === true ? 0 : storedEnergySlope(from, toS, endG),
  ] as const;
  const { errors, locomotive } = from;
  const ended = from.stateAt(toS);
  const guessed = from.stateAt(fromS);
  const { metalMassG, metal } = locomotive.boiler;
  const metalJPerK = metalHeatCapacityJPerK(metalMassG, metal);
  const parts: Part[] = [
    ...linear.parts,
    { name: "pressure readings", u: scale * errors.pressureReadingBar * Math.hypot(...slopes) },
    {
      name: "bias of the pressure dial",
      source: sharedSource.dial(locomotive),
      u: scale * errors.pressureBiasBar * (slopes[1] - slopes[0]),
    },
    {
      name: "temperature of the cold water",
      u: scale * (Math.abs(startG) * guessed.water.cpJPerKgK * 1e-3 + metalJPerK) * guessed.uTemperatureK,
    },
    {
      name: "pressure at the end, not read",
      u: scale * (Math.abs(endG) * ended.water.cpJPerKgK * 1e-3 + metalJPerK) * ended.uTemperatureK,
    },
  ];
  const rise = {
    value: linear.value + scale * (end.fixedJ - start.fixedJ + (wanted.plusJ ?? 0)),
    unit: wanted.unit,
    parts: parts.filter((part) => part.u !== 0),
  };
  return water.unseen === undefined ? rise : withUnseen(rise, water.unseen, combination.drawn ?? []);
}
