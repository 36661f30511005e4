import { expect, test } from "vitest";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { decadesOf, isWhole, type Meaning, typedValue } from "../../../web/pages/footplate/pad-spec.ts";
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

/** The ways in which a number can be typed: 3.6 is 36; begun with a nought where that tells it from a larger one; or with its point. */
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
    })),
  ),
);
const decimalsOf = ({ step }: Meaning) => (String(step).split(".")[1] ?? "").length;
const most = (meant: Meaning) => Math.round(meant.largest * 10 ** decimalsOf(meant));

const typedOnly = all.filter(({ meant }) => meant.least === undefined);
test.each(typedOnly)(
  "$name: no number of three figures is kept before it is finished, and it takes four taps, where it is not likelier ten times as large",
  ({ meant }) => {
    for (let units = 0; units <= Math.min(999, most(meant)); units++) {
      const value = units / 10 ** decimalsOf(meant);
      const plain = String(units);
      const isPlain = typedValue(plain, meant) === value;
      if (isPlain) expect(tapsFor(plain, meant), `${plain} is kept too soon`).not.toBeNull();
      const taps = ways(units, decimalsOf(meant))
        .filter((way) => typedValue(way, meant) === value)
        .map((way) => tapsFor(way, meant) ?? Number.POSITIVE_INFINITY);
      const isUnlikely = most(meant) > 999 && !isPlain;
      expect(Math.min(...taps), `taps for ${value}`).toBeLessThanOrEqual(isUnlikely ? 6 : 4);
    }
  },
);

/** What four taps keep under a meaning: the tile; then two figures and its key, three figures where it is the usual, or its key, the ten and the number. */
function fourTapsOf({ meanings, meaning: usual }: Asking, value: string): Set<number> {
  const own = meanings.filter((each) => each.value.split(" ")[0] === value);
  return new Set(
    own.flatMap((meant) => {
      const typed = Array.from({ length: value === usual ? 1000 : 100 }, (_, i) => i * meant.step);
      const chosen = decadesOf(meant).flatMap(({ from, by }) =>
        Array.from({ length: 10 }, (_, i) => from + i * by),
      );
      return [...(meant.least === undefined ? typed : []), ...(meant.value === usual ? [] : chosen)].map(
        (each) => Math.round(each / meant.step),
      );
    }),
  );
}

/** Of what it holds a measure is divided so finely. */
const DIVISION = 0.015;

test.each(Object.entries(engines))(
  "an amount of an engine %s takes four taps whatever it is of: to the last millilitre if it is of the usual and below a litre, else to a division of the measure",
  (_of, engine) => {
    for (const pad of [feedAsking(engine, []), fuelAsking(engine, [])]) {
      for (const meant of pad.meanings.filter(({ least }) => least === undefined)) {
        const four = fourTapsOf(pad, meant.value);
        const steps = Math.floor(meant.largest / meant.step);
        const within = Math.max(0.5, meant.value === pad.meaning ? 0 : DIVISION * steps);
        for (let units = 0; units <= steps; units++) {
          const room = meant.value === pad.meaning && units < 1000 ? 0 : Math.max(within, DIVISION * units);
          const near = Array.from(
            { length: 2 * Math.floor(room) + 1 },
            (_, i) => units - Math.floor(room) + i,
          );
          expect(
            near.some((each) => four.has(each)),
            `${pad.title}, ${meant.name}: ${units} steps`,
          ).toBe(true);
        }
      }
    }
  },
);

test("strokes are whole ones in whatever unit the water is, which has a tenth in fluid ounces", () => {
  units.value = { ...units.value, volume: "fl oz" };
  const { meanings } = feedAsking(engines["of three litres, fired with coal"] as Locomotive, []);
  expect(Object.fromEntries(meanings.map(({ value, step }) => [value, step]))).toEqual({
    bottle: 0.1,
    "hand-pump": 1,
    injector: 0.1,
    fill: 0.1,
    drained: 0.1,
    "fill 100": 0.1,
  });
});

test("a temperature takes four taps with More and its key: two figures of air and feed water, a ten and its degree of the boiler", () => {
  for (const where of ["ambient", "feed-water"] as const) {
    const [meant] = temperatureAsking(where, []).meanings;
    expect(meant !== undefined && meant.least === undefined && isWhole("25", meant), where).toBe(true);
  }
  const [boiler] = temperatureAsking("boiler", []).meanings;
  expect(boiler?.least).toBe(10);
  expect(boiler === undefined ? [] : decadesOf(boiler).map(({ by }) => by)).toEqual(Array(17).fill(1));
});
