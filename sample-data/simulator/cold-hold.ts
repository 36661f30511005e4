import { boilerGeometry } from "../../src/boiler/geometry.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { engines } from "./engines.ts";
import { type Random, randomOf } from "./random.ts";
import { reading, rounded } from "./readings.ts";

/** One invented hydraulic hold: what was written down, and what happened. */
export interface ColdHoldSimulation {
  locomotive: Locomotive;
  steaming: Steaming;
  /** the leak at working pressure */
  truth: { complianceMlPerBar: number; leakMlPerMin: number };
}

/** What is not left to chance: for a hold that is to be shown. */
export interface ColdHoldGiven {
  head: Pick<Steaming, "id" | "title" | "notes" | "startedAt">;
  locomotive: Locomotive;
  pressureReadingBar: number;
  pressureBiasBar: number;
  pressureDivisionBar: number;
  testBar: number;
  minutes: number;
  airMl: number;
  strokesEach: number;
  /** at the highest pressure pumped to */
  leakMlPerMin: number;
  everyS: number;
}

const ATMOSPHERE_BAR = 1.01325;
const STEP_S = 1;
const CUBIC_PER_K = { copper: 4.95e-5, brass: 5.7e-5, steel: 3.5e-5 } as const;

/** Density of water at ordinary pressure, kg/m3, 0 to 40 °C: McCutcheon, Martin & Barnett, Handbook of Hydrology, 1993, 11.3. */
const densityKgPerM3 = (c: number): number =>
  1000 * (1 - ((c + 288.9414) * (c - 3.9863) ** 2) / (508_929.2 * (c + 68.12963)));

/**
 * A boiler filled to the brim but for a little air, pumped up by counted strokes and left. Springy metal and water give
 * a steady compliance, air gives by Boyle's law, the leak goes with the root of the pressure, and the water warms or
 * cools on its way to the air's temperature.
 */
export function simulateColdHold(seed: number, given?: ColdHoldGiven): ColdHoldSimulation {
  const random = randomOf(seed, "cold hold");
  const { locomotive, instruments } = given === undefined ? engineFor(random) : engineGiven(given);
  const { boiler, workingPressureBarG } = locomotive;
  const totalMl = boilerGeometry(boiler).totalM3 * 1e6;
  const springMl = totalMl * random.between(1.2e-4, 5e-4);
  const airMl = given?.airMl ?? totalMl * 10 ** random.between(-3.5, -2);
  const mlPerStroke = (locomotive.handPump?.mlPerStroke ?? 1) * (1 + 0.02 * random.normal());
  const testBar = given?.testBar ?? workingPressureBarG * random.pick([1.5, 2]);
  const minutes = given?.minutes ?? random.whole(8, 30);
  const takes = (bar: number) => springMl * bar + airMl * (1 - ATMOSPHERE_BAR / (ATMOSPHERE_BAR + bar));
  const softness = (bar: number) => springMl + (airMl * ATMOSPHERE_BAR) / (ATMOSPHERE_BAR + bar) ** 2;
  const barAt = (pumpedMl: number): number => {
    let [low, high] = [0, 100];
    for (let i = 0; i < 60; i += 1) {
      const middle = (low + high) / 2;
      if (takes(middle) < pumpedMl) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  const division = given?.pressureDivisionBar ?? 0.05;
  const bias = instruments.pressureBiasBar * random.normal();
  const dial = (bar: number) =>
    bar < 0.02 ? 0 : Math.max(0, reading(bar + bias, instruments.pressureReadingBar, division, random));

  const entries: Entry[] = [];
  const strokesEach =
    given?.strokesEach ?? Math.max(0.1, rounded(takes(testBar) / mlPerStroke / random.whole(5, 10), 0.05));
  let [atS, pumpedMl] = [0, 0];
  const gapMl = mlPerStroke * random.between(0.2, 2); // until the last of the space is full
  entries.push({ kind: "strokes", atS, count: given === undefined ? gapMl / mlPerStroke : 1, barG: 0 });
  while (barAt(pumpedMl) < testBar) {
    atS += random.whole(5, 12);
    pumpedMl += strokesEach * mlPerStroke;
    entries.push({ kind: "strokes", atS, count: strokesEach, barG: dial(barAt(pumpedMl)) });
  }

  const topBar = barAt(pumpedMl);
  const leakAtTop =
    given?.leakMlPerMin ??
    ((softness(topBar) * topBar) / minutes) * random.pick([0, 0.02, 0.1, 0.3]) * random.uniform();
  let celsius = random.between(8, 22);
  const airC = celsius + random.normal();
  const settlesS = random.between(1500, 6000);
  const fromS = atS;
  let bar = topBar;
  let meanBar = 0;
  const thermometer = (): Entry => ({
    kind: "temperature",
    of: "boiler",
    atS,
    celsius: reading(celsius, 0.1, 0.1, random),
  });
  const watched = given !== undefined || random.chance(0.7);
  if (watched) entries.push(thermometer());
  const everyS = given?.everyS ?? random.pick([60, 120, 300]);
  for (let s = STEP_S; s <= minutes * 60; s += STEP_S) {
    const before = densityKgPerM3(celsius);
    const warmed = ((airC - celsius) * STEP_S) / settlesS;
    celsius += warmed;
    const swelled = totalMl * (before / densityKgPerM3(celsius) - 1 - CUBIC_PER_K[boiler.metal] * warmed);
    const leaked = ((leakAtTop * Math.sqrt(Math.max(0, bar) / topBar)) / 60) * STEP_S;
    bar += (swelled - leaked) / softness(bar);
    meanBar += (bar * STEP_S) / (minutes * 60);
    atS = fromS + s;
    if (s % everyS === 0 || s === minutes * 60) entries.push({ kind: "pressure", atS, barG: dial(bar) });
  }
  if (watched) entries.push(thermometer());
  return {
    locomotive,
    steaming: {
      ...(given?.head ?? { id: `cold-hold-${seed}`, startedAt: "2026-03-07T10:00:00+00:00" }),
      locomotiveId: locomotive.id,
      purpose: "cold-hold",
      conditions: { ambientC: rounded(airC, 0.5), feedC: rounded(celsius, 0.5) },
      entries: given === undefined ? entries : named(given.head.id, entries),
    },
    truth: {
      complianceMlPerBar: softness(meanBar),
      leakMlPerMin: leakAtTop * Math.sqrt(workingPressureBarG / topBar),
    },
  };
}

const named = (id: string, entries: readonly Entry[]): Entry[] =>
  entries.map((entry, i) => ({ id: `${id}-${String(i + 1).padStart(3, "0")}`, ...entry }));

function engineGiven({ locomotive, pressureReadingBar, pressureBiasBar }: ColdHoldGiven) {
  return { locomotive, instruments: { pressureReadingBar, pressureBiasBar } };
}

function engineFor(random: Random) {
  const { locomotive } = random.pick(engines);
  const instruments = {
    pressureReadingBar: random.between(0.03, 0.1),
    pressureBiasBar: random.between(0.02, 0.12),
  };
  const handPump = { mlPerStroke: rounded(random.between(0.8, 1.5), 0.05), uMlPerStroke: 0 };
  handPump.uMlPerStroke = 0.02 * handPump.mlPerStroke;
  return { locomotive: { ...locomotive, handPump, instruments }, instruments };
}
