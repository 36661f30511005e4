import { expect, test } from "vitest";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { isWhole, type Meaning, typedValue } from "../../../web/pages/footplate/pad-spec.ts";
import {
  type Asking,
  dripAsking,
  feedAsking,
  fuelAsking,
  pressureAsking,
  temperatureAsking,
  waterAsking,
} from "../../../web/pages/footplate/pads.ts";
import { units } from "../../../web/preferences/units.ts";
import { smallEngine } from "../../support/small-logbook.ts";

const small = { ...smallEngine(), handPump: { mlPerStroke: 1 } };
const engines: Record<string, Locomotive> = {
  "small, fired with spirit": small,
  "small, fired with gas from a tank of 60 ml": { ...small, fuel: { kind: "butane", tankMl: 60 } },
  "of three litres, fired with coal": {
    ...small,
    workingPressureBarG: 6.5,
    boiler: {
      ...small.boiler,
      shape: { kind: "horizontal", innerDiameterMm: 120, innerLengthMm: 280 },
      lowestLevelMm: 60,
      highestLevelMm: 95,
    },
    fuel: { kind: "coal" },
    handPump: { mlPerStroke: 8 },
  },
};
const padsOf = (engine: Locomotive): Asking[] => [
  pressureAsking(engine, [], false),
  pressureAsking(engine, [], true),
  waterAsking(engine, []),
  feedAsking(engine, []),
  fuelAsking(engine, []),
  dripAsking(engine, "gland", "gland", 120),
];

/** The ways in which a number can be typed: 3.6 is 36, and 0.4 is 04 where 4 would be 4.0, or it has its point. */
const ways = (units: number, decimals: number): string[] => {
  const value = units / 10 ** decimals;
  return [String(units), `0${units}`, Number.isInteger(value) ? `${value}.` : String(value)];
};

/** Taps from the Footplate until it is kept under the meaning that stands chosen: tile, digits, and the key that keeps. Null where it is kept before it is finished. */
function tapsFor(typed: string, meant: Meaning): number | null {
  for (let i = 1; i < typed.length; i++) if (isWhole(typed.slice(0, i), meant)) return null;
  return 1 + typed.length + (isWhole(typed, meant) ? 0 : 1);
}

const all = Object.entries(engines).flatMap(([of, engine]) =>
  padsOf(engine).flatMap((pad) =>
    pad.meanings.map((meant) => ({
      name: `${pad.title.toLowerCase()} ${meant.name} of an engine ${of}`,
      meant,
      near: pad.near,
    })),
  ),
);
const decimalsOf = ({ step }: Meaning) => (String(step).split(".")[1] ?? "").length;
const most = (meant: Meaning) => Math.round(meant.largest * 10 ** decimalsOf(meant));

test.each(all)(
  "$name: no number is kept before it is finished, and up to three figures take four taps, five where a longer one may begin so",
  ({ meant, near }) => {
    for (let units = 0; units <= Math.min(9999, most(meant)); units++) {
      const value = units / 10 ** decimalsOf(meant);
      const plain = String(units);
      const isPlain = typedValue(plain, meant, near) === value;
      if (isPlain) expect(tapsFor(plain, meant), `${plain} is kept too soon`).not.toBeNull();
      if (units > 999) continue;
      const taps = ways(units, decimalsOf(meant))
        .filter((way) => typedValue(way, meant, near) === value)
        .map((way) => tapsFor(way, meant) ?? Number.POSITIVE_INFINITY);
      const mayGoOn = most(meant) > 999 && (!isPlain || (units >= 100 && 10 * units <= most(meant)));
      expect(Math.min(...taps), `taps for ${value}`).toBeLessThanOrEqual(mayGoOn ? 5 : 4);
    }
  },
);

test("no amount of an engine of less than a litre takes five", () => {
  const amounts = all.filter(({ name }) => /^(feed|fuel|caught).* small/.test(name));
  expect(amounts.length).toBeGreaterThan(10);
  for (const { name, meant } of amounts) expect(most(meant), name).toBeLessThan(1000);
});

test("strokes are whole ones in whatever unit the water is, which has a tenth in fluid ounces", () => {
  units.value = { ...units.value, volume: "fl oz" };
  const { meanings } = feedAsking(engines["of three litres, fired with coal"] as Locomotive, []);
  expect(Object.fromEntries(meanings.map(({ value, step }) => [value, step]))).toEqual({
    bottle: 0.1,
    "hand-pump": 1,
    injector: 0.1,
    fill: 0.1,
    drained: 0.1,
  });
});

test("two figures of a temperature of feed or air keep themselves: with More and its key four taps", () => {
  const whole = temperatureAsking([]).meanings.filter((meant) => isWhole("25", meant));
  expect(whole.map(({ name }) => name)).toEqual(["feed", "air"]);
});
