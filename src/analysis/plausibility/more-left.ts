import { clock } from "../../quantity/clock.ts";
import { interval, isMeasured } from "../../quantity/measured.ts";
import { BEYOND_MEASURING } from "../fuel/fuel-stock.ts";
import { fuelProperties } from "../fuel/fuel-table.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { drawnWithin, type Water } from "../water/water.ts";
import { entriesOf } from "./rising-level.ts";

/** Fuel, or water, of which more was left than had been put in. */
export function moreLeftWarnings(from: Sources, water: Water, risen: readonly Warning[]): Warning[] {
  return [...moreFuelLeft(from), ...(risen.length > 0 ? [] : moreWaterLeft(from, water))];
}

function moreFuelLeft({ timeline, locomotive, errors }: Sources): Warning[] {
  const entries = timeline.of("fuel");
  const gramsPerMl = fuelProperties(locomotive.fuel)?.densityGPerMl ?? locomotive.fuel.densityGPerMl;
  const allMl = entries.every((entry) => entry.ml !== undefined);
  // where no density tells, what is all in ml is compared in ml
  if (gramsPerMl === undefined && !allMl && entries.some((entry) => entry.ml !== undefined)) return [];
  const perMl = allMl ? 1 : (gramsPerMl ?? 1);
  const unit = allMl ? "ml" : "g";
  let held: { amount: number; variance: number; ids: string[] } | null = null;
  return entries.flatMap((entry): Warning[] => {
    const amount = entry.g ?? (entry.ml ?? 0) * perMl;
    const u = entry.g !== undefined ? errors.massReadingG : errors.volumeReadingMl * perMl;
    const before = held ?? { amount: 0, variance: 0, ids: [] };
    if (entry.action === "added") {
      held = {
        amount: before.amount + amount,
        variance: before.variance + u ** 2,
        ids: [...before.ids, entry.id],
      };
      return [];
    }
    const known = held !== null;
    held = { amount, variance: u ** 2, ids: [entry.id] };
    if (!known || amount - before.amount <= BEYOND_MEASURING * Math.sqrt(before.variance + u ** 2)) return [];
    return [
      {
        code: "fuel-left-more",
        text: `More fuel was left at ${clock(entry.atS)}, ${rounded(amount)} ${unit}, than there had been, ${rounded(before.amount)} ${unit}: a filling was not written down, or one of the two is wrong.`,
        entries: [...before.ids, entry.id],
      },
    ];
  });
}

function moreWaterLeft(from: Sources, water: Water): Warning[] {
  if (water.balance === null) return [];
  const { fromS, toS } = water.balance;
  const window = [[toS, 1] as const, [fromS, -1] as const];
  if (water.balance.value({ unit: "g", drawn: window }) >= 0) return [];
  const drawn = drawnWithin(water, [[fromS, toS]]);
  if (!isMeasured(drawn)) return [];
  const [, most] = interval(drawn, 0.997);
  if (most >= 0) return [];
  const { readings } = water.input;
  return [
    {
      code: "water-left-more",
      text: `About ${rounded(-drawn.value)} g more water was left at ${clock(toS)} than was there at ${clock(fromS)} and had been put in since: a feed was not written down, or a reading is wrong.`,
      entries: entriesOf(from, [...readings.slice(0, 1), ...readings.slice(-1)]),
    },
  ];
}

const rounded = (value: number): string => value.toFixed(value < 20 ? 1 : 0);
