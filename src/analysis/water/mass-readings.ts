import { isInSight } from "../../logbook/glass-reading.ts";
import type { Boiler } from "../../logbook/locomotive.ts";
import { overlapS } from "../../logbook/timeline.ts";
import { waterState } from "../../steam/region1.ts";
import { ALWAYS } from "../fuel/fuel-read.ts";
import { fuelProperties } from "../fuel/fuel-table.ts";
import { NONE_BAR } from "../pressure/pressure-course.ts";
import type { Sources } from "../sources.ts";
import type { BoilerState } from "../state/boiler-state.ts";
import { asWater, type Circumstances, ICE_POINT_K, PA_PER_BAR } from "../state/circumstances.ts";
import { levelErrorMm, sharedSource } from "../state/instruments.ts";
import { densityGPerMl, HURRY_S } from "./feed-course.ts";
import type { MassReading } from "./mass-reading.ts";

/**
 * Relative standard uncertainty of the boiler's volume for a rise of the level (our choice: an inner diameter
 * of 50 mm known to 0.25 mm). It touches only what the level itself changed by.
 */
const BOILER_VOLUME_RELATIVE = 0.01;
export function massReadings(from: Sources): MassReading[] {
  const { timeline, errors, around } = from;
  const readings: MassReading[] = [];
  const lastDrainOrder = timeline.entries.findLastIndex((entry) => entry.kind === "drained");
  timeline.entries.forEach((entry, order) => {
    if (lastDrainOrder >= 0 && order > lastDrainOrder) return;
    if (entry.kind === "level" && isInSight(entry)) {
      const uMm = levelErrorMm(entry, from.locomotive, errors);
      readings.push(fromLevel(from, entry.atS, order, entry.mm - from.logged.lowerGlassBy, uMm));
    }
    if (entry.kind === "weight")
      readings.push(fromWeight(from, entry.atS, order, entry.g, errors.massReadingG));
    const firstFilling = entry.kind === "fill" && !readings.some((reading) => reading.of === "contents");
    if (firstFilling || order === lastDrainOrder) {
      const ml = entry.kind === "fill" || entry.kind === "drained" ? entry.ml : 0;
      const hot = entry.kind === "drained" ? drainedInSteam(from, entry.atS) : null;
      const density =
        hot?.gPerMl ??
        densityGPerMl(entry.kind === "fill" ? around.feedC : drainedC(from, entry.atS), around);
      readings.push({
        atS: entry.atS,
        order,
        grams: ml * density,
        uGrams: Math.hypot(errors.volumeReadingMl * density, ml * (hot?.uGPerMl ?? 0)),
        of: "contents",
        poured: true,
        shared: [],
      });
    }
  });
  for (const { of, atS, value, u } of from.logged.readings) {
    const order = timeline.entries.findLastIndex((entry) => entry.atS <= atS);
    readings.push((of === "level" ? fromLevel : fromWeight)(from, atS, order, value, u));
  }
  return thatTell(from, readings).sort((a, b) => a.atS - b.atS || a.order - b.order);
}

/**
 * Where it is not known what the fire burnt, two weighings tell the water only with no fire between them: of all weighings
 * those with as much fire before them as the most others.
 */
function thatTell({ timeline, fuel, pressure, phases }: Sources, readings: MassReading[]): MassReading[] {
  const fired = timeline.of("fire").length > 0 || phases.some(({ name }) => name === "running");
  if (!fired && (pressure.highest?.barG ?? 0) <= NONE_BAR) return readings;
  if (fuel.burntG(ALWAYS).value !== null) return readings;
  const fireBefore = ({ atS }: MassReading) => overlapS(fuel.fire, Number.NEGATIVE_INFINITY, atS);
  const weighed = readings.filter(({ of }) => of === "whole engine").map(fireBefore);
  const alike = (seconds: number) => weighed.filter((other) => other === seconds).length;
  const most = Math.max(...weighed.map(alike));
  const best = weighed.find((seconds) => alike(seconds) === most);
  return readings.filter((one) => one.of === "contents" || (most > 1 && fireBefore(one) === best));
}

/** Water let out is measured once it has stopped boiling; where no thermometer says, taken as at the air's warmth. */
function drainedC(from: Sources, atS: number): number {
  return asWater(boilerThermometerBy(from, atS) ?? from.around.ambientC);
}

const boilerThermometerBy = ({ timeline }: Sources, atS: number): number | undefined =>
  timeline.of("temperature").findLast((entry) => entry.of === "boiler" && Math.abs(entry.atS - atS) < 600)
    ?.celsius;

/** So long after the dial showed steam, water let out is still boiling, s (our choice). */
const STILL_BOILING_S = 600;

/**
 * Grams in the boiler for each ml of water let out soon after the dial showed steam: measured hot, or once it had cooled;
 * run off whole, or boiling off a part as it lost its pressure. Evenly anywhere between those; null where the dial showed no
 * steam by then, or a boiler thermometer tells how warm it was.
 */
export function drainedInSteam(
  from: Sources,
  atS: number,
): { gPerMl: number; uGPerMl: number; readS: number; barG: number } | null {
  const { pressure, around } = from;
  const [readS, barG] = pressure.points.findLast(([at]) => at <= atS) ?? [atS, 0];
  if (boilerThermometerBy(from, atS) !== undefined) return null;
  if (barG <= NONE_BAR || atS - readS >= STILL_BOILING_S) return null;
  const [hot, { water, steam }] = [from.stateAtPressure(barG).water, from.stateAtPressure(0)];
  const flashed = (hot.enthalpyJPerKg - water.enthalpyJPerKg) / (steam.enthalpyJPerKg - water.enthalpyJPerKg);
  const least = 1e-3 / water.volumeM3PerKg;
  const most = densityGPerMl(asWater(around.ambientC), around) / (1 - flashed);
  return { gPerMl: (least + most) / 2, uGPerMl: (most - least) / Math.sqrt(12), readS, barG };
}

/** What the boiler would hold at a moment with the glass at a level: no reading, but with the errors that readings share. */
export const heldAtLevel = (from: Sources, atS: number, levelMm: number): MassReading =>
  fromLevel(from, atS, 0, levelMm, 0);

function fromLevel(from: Sources, atS: number, order: number, levelMm: number, uMm: number): MassReading {
  const { geometry, locomotive, errors } = from;
  const state = from.stateAt(atS);
  const trueMm = boilerLevelMm(locomotive.boiler, levelMm, state, from.around);
  const waterM3 = geometry.waterM3AtLevelMm(trueMm);
  const steamVolume = state.steam?.volumeM3PerKg ?? Number.POSITIVE_INFINITY;
  const density = 1 / state.water.volumeM3PerKg;
  const netDensity = density - 1 / steamVolume;
  const grams = 1000 * (waterM3 * density + (geometry.totalM3 - waterM3) / steamVolume);
  // relative change of density with temperature, and with pressure along the boiling line
  const perK = -1000 * waterM3 * density * state.water.expansionPerK;
  const kelvinPerBar = boilingSlope(state);
  const guessedG = perK * state.uTemperatureK;
  return {
    atS,
    order,
    grams,
    uGrams: Math.hypot(
      uMm * geometry.m3PerMm(trueMm) * netDensity * 1000,
      perK * kelvinPerBar * errors.pressureReadingBar,
      state.courseToS ? 0 : guessedG,
    ),
    of: "contents",
    shared: [
      {
        source: sharedSource.boilerVolume(locomotive),
        name: "volume of the boiler",
        uGrams: 1000 * waterM3 * netDensity * BOILER_VOLUME_RELATIVE,
      },
      {
        source: sharedSource.dial(locomotive),
        name: "bias of the pressure dial",
        // signed so that a figure's part says how the figure moves with the dial, as everywhere
        uGrams: -perK * kelvinPerBar * errors.pressureBiasBar,
      },
      ...(state.courseToS
        ? [
            {
              source: `warmth until ${state.courseToS} s of steaming ${from.steaming.id}`,
              name: "warmth that was guessed",
              uGrams: guessedG,
            },
          ]
        : []),
    ],
  };
}

/** Rise of the boiling point with pressure, K/bar: Clapeyron's dT/dp = T (vg - vf)/hfg; 0 below boiling. */
function boilingSlope({ temperatureK, water, steam }: BoilerState): number {
  if (steam === null) return 0;
  const latent = steam.enthalpyJPerKg - water.enthalpyJPerKg;
  return (PA_PER_BAR * temperatureK * (steam.volumeM3PerKg - water.volumeM3PerKg)) / latent;
}

/**
 * The glass holds cooler, denser water than the boiler, in steam and on the way there: the same weight of column stands
 * lower in it. Counted from the glass's zero, its lower connection.
 */
function boilerLevelMm(boiler: Boiler, levelMm: number, state: BoilerState, around: Circumstances): number {
  if (boiler.glassWaterC === undefined || levelMm <= 0) return levelMm;
  const glassK = Math.min(boiler.glassWaterC + ICE_POINT_K, state.temperatureK);
  return (
    (levelMm * state.water.volumeM3PerKg) /
    waterState(glassK, Math.max(state.water.pressurePa, around.atmospherePa)).volumeM3PerKg
  );
}

/**
 * The whole engine loses what it draws and what it burns; both are put back, so that only the drawn remains. What the fuel's
 * readings say wrongly they say to all weighings, as to what the fire burnt; and fuel noted in a
 * hurry after a weighing may have been in.
 */
function fromWeight(from: Sources, atS: number, order: number, grams: number, uGrams: number): MassReading {
  const { timeline, fuel, locomotive, steaming } = from;
  const startS = timeline.entries[0]?.atS ?? 0;
  const burnt = fuel.burntG([[startS, atS]]);
  const gramsPerMl = fuelProperties(locomotive.fuel)?.densityGPerMl ?? 0;
  let [addedG, doubtG] = [0, 0];
  timeline.entries.forEach((entry, place) => {
    if (entry.kind !== "fuel" || entry.action !== "added" || entry.atS <= startS) return;
    const put = entry.g ?? (entry.ml ?? 0) * gramsPerMl;
    if (place <= order) addedG += put;
    else if (entry.atS - atS <= HURRY_S) {
      addedG += put / 2;
      doubtG = Math.hypot(doubtG, put / 2);
    }
  });
  const parts = burnt.value === null ? [] : burnt.parts;
  return {
    atS,
    order,
    grams: grams + (burnt.value ?? 0) - addedG,
    uGrams: Math.hypot(uGrams, doubtG),
    of: "whole engine",
    shared: parts.map(({ name, u, source }) => ({
      name,
      source: source ?? `${name} of steaming ${steaming.id}`,
      // signed as the dial: what makes the burnt too much makes the drawn too little
      uGrams: -u,
    })),
  };
}
