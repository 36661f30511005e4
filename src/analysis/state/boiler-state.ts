import type { Timeline } from "../../logbook/timeline.ts";
import { waterState } from "../../steam/region1.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../../steam/saturation.ts";
import type { SteamState } from "../../steam/state.ts";
import { NONE_BAR, type PressureCourse } from "../pressure/pressure-course.ts";
import { asWater, type Circumstances, ICE_POINT_K } from "./circumstances.ts";
import { coldWater } from "./cold-water.ts";
import { COOLED_DOUBT, cooledK } from "./cooling-away.ts";
import { FASTER, JUST_LIT_S, type Lighting } from "./lighting.ts";
import { fireStretches } from "./phases.ts";

/** What stands in the boiler at a moment: water, and steam above it once there is pressure. */
export interface BoilerState {
  temperatureK: number;
  water: SteamState;
  /** null while the boiler is below boiling: air stands above the water */
  steam: SteamState | null;
  /** standard uncertainty of the temperature where it had to be guessed; 0 in steam */
  uTemperatureK: number;
  /** when the course ends by which it was guessed, s: one error of all moments in it */
  courseToS?: number;
}

export type InSteam = BoilerState & { steam: SteamState };

/** The warmer she is, the more she loses and the less the fire gives: by this part her pace falls from the middle of the way to boiling. */
const SLOWER_AT_BOILING = 1 - 1 / FASTER.usual;
/** A boiler thermometer speaks for so long before and after it was read. */
const TEMPERATURE_HOLDS_S = 300;

export interface BoilerStates {
  at(atS: number): BoilerState;
  /** in steam at a gauge pressure */
  inSteam(barG: number): InSteam;
}

export function boilerStates(
  timeline: Timeline,
  pressure: PressureCourse,
  around: Circumstances,
  workingBarG: number,
  litWarm: Lighting["warm"] = null,
): BoilerStates {
  const usedFromS = steamUsedFromS(timeline);
  const outS = timeline.of("fire").findLast(({ state }) => state === "out")?.atS ?? Number.POSITIVE_INFINITY;
  const litS = fireStretches(timeline)[0]?.[0] ?? null;
  const boiler = timeline.of("temperature").filter((entry) => entry.of === "boiler");
  const { celsius: coldC, uK: uColdK } = coldWater(around, timeline, litS);
  const boilingK = around.boilingK(0);
  const known = new Map<number, Pick<InSteam, "water" | "steam">>();

  const cold = (temperatureK: number, uTemperatureK: number): BoilerState => {
    const within = Math.min(temperatureK, boilingK);
    return {
      temperatureK: within,
      water: waterState(within, around.atmospherePa),
      steam: null,
      uTemperatureK,
    };
  };
  const inSteam = (pressurePa: number, uTemperatureK: number): InSteam => {
    let found = known.get(pressurePa);
    if (found === undefined) {
      found = { water: saturatedWater(pressurePa), steam: saturatedSteam(pressurePa) };
      known.set(pressurePa, found);
    }
    const { water, steam } = found;
    return { temperatureK: water.temperatureK, water, steam, uTemperatureK };
  };

  const states = new Map<number, BoilerState>();
  const remembered = (atS: number): BoilerState => {
    const state = states.get(atS) ?? stateAt(atS);
    states.set(atS, state);
    return state;
  };
  return { at: remembered, inSteam: (barG) => inSteam(around.absolutePa(barG), 0) };

  function stateAt(atS: number): BoilerState {
    if (litWarm !== null && atS <= litWarm.atS) return asLitWarm(litWarm);
    const barG = pressure.atS(atS);
    const inSteamYet = pressure.beganInSteam || (pressure.firstSteamS !== null && atS > pressure.firstSteamS);
    if (barG !== null && barG > NONE_BAR && inSteamYet) {
      const uK = uCooledK(atS, barG);
      const state = inSteam(around.absolutePa(barG), uK);
      return uK === 0 ? state : { ...state, courseToS: Number.POSITIVE_INFINITY };
    }
    // what was read while the fire warms her says nothing of before it was lit, and is a mark on the way up
    if (litS !== null && pressure.firstSteamS !== null && atS >= litS && atS <= pressure.firstSteamS)
      return warming(atS, litS);
    const read = nearest(litS === null || atS > litS ? boiler : beforeLit(litS), atS);
    if (read !== null && Math.abs(read.atS - atS) <= TEMPERATURE_HOLDS_S) {
      const kelvin = Math.max(read.celsius, 0.01) + ICE_POINT_K;
      return kelvin > boilingK ? inSteam(saturationPressurePa(kelvin), 1) : cold(kelvin, 1);
    }
    const asFilled = () => cold(coldC + ICE_POINT_K, uColdK);
    if (litS !== null && atS <= litS) return asFilled();
    if (barG === null) return unknown(atS);
    return pressureGoneAt(atS) ?? (litS === null ? asFilled() : warming(atS, litS));
  }

  function asLitWarm({ kelvin, uK }: NonNullable<Lighting["warm"]>): BoilerState {
    return kelvin > boilingK ? inSteam(saturationPressurePa(kelvin), uK) : cold(kelvin, uK);
  }

  /** No pressure and no temperature was read: anything from cold, or from boiling while steam is used, to working pressure. */
  function unknown(atS: number): BoilerState {
    const least = atS >= usedFromS && atS <= outS ? boilingK : coldC + ICE_POINT_K;
    const most = around.boilingK(workingBarG);
    const [middle, u] = [(least + most) / 2, (most - least) / 2];
    return middle > boilingK ? inSteam(saturationPressurePa(middle), u) : cold(middle, u);
  }
  /** What tells how warm she was lit: read before, or if not, just after. */
  function beforeLit(fireS: number) {
    const before = boiler.filter(({ atS }) => atS <= fireS);
    return before.some(({ atS }) => fireS - atS <= TEMPERATURE_HOLDS_S)
      ? before
      : boiler.filter(({ atS }) => atS <= fireS + JUST_LIT_S);
  }
  /**
   * From mark to mark, as cold as she was lit, each thermometer reading, boiling at first steam, along a parabola: her pace
   * falls evenly.
   */
  function warming(atS: number, fromS: number): BoilerState {
    const steamS = pressure.firstSteamS;
    if (steamS === null || steamS <= fromS) {
      const start = coldC + ICE_POINT_K;
      return cold(start + 0.5 * (boilingK - start), (boilingK - start) / 4);
    }
    const first = nearest(beforeLit(fromS), fromS);
    const asLit =
      first !== null && Math.abs(fromS - first.atS) <= TEMPERATURE_HOLDS_S
        ? { atS: fromS, kelvin: Math.max(first.celsius, 0.01) + ICE_POINT_K, u: 1 }
        : { atS: fromS, kelvin: litWarm?.kelvin ?? coldC + ICE_POINT_K, u: litWarm?.uK ?? uColdK };
    const marks = [
      asLit,
      ...boiler
        .filter((entry) => entry.atS > fromS && entry.atS < steamS)
        .map(({ atS: readS, celsius }) => ({
          atS: readS,
          kelvin: Math.min(Math.max(celsius, 0.01) + ICE_POINT_K, boilingK),
          u: 1,
        })),
      { atS: steamS, kelvin: boilingK, u: 0 },
    ];
    const next = Math.max(
      1,
      marks.findIndex((mark) => mark.atS >= atS),
    );
    const [before, after] = [marks[next - 1] ?? asLit, marks[next] ?? asLit];
    const share = Math.min(1, Math.max(0, (atS - before.atS) / (after.atS - before.atS)));
    const rise = after.kelvin - before.kelvin;
    const u = Math.hypot(before.u * (1 - share), after.u * share, 0.4 * Math.abs(rise) * share * (1 - share));
    const partOfWay = (after.atS - before.atS) / (steamS - fromS);
    const aboveStraightK =
      SLOWER_AT_BOILING * (boilingK - asLit.kelvin) * partOfWay ** 2 * share * (1 - share);
    return {
      ...cold(before.kelvin + share * rise + aboveStraightK, u),
      courseToS: after.atS,
    };
  }
  function pressureGoneAt(atS: number): BoilerState | null {
    let goneS: number | null = null;
    for (const [readS, barG] of [...pressure.points, ...pressure.away]) {
      if (readS > atS) break;
      if (barG > NONE_BAR) goneS = readS;
    }
    if (goneS === null) return null;
    const ambientK = asWater(around.ambientC) + ICE_POINT_K;
    const temperatureK = cooledK(boilingK, ambientK, atS - goneS);
    return {
      ...cold(temperatureK, Math.max(1, COOLED_DOUBT * (boilingK - temperatureK))),
      courseToS: Number.POSITIVE_INFINITY,
    };
  }
  /** The doubt of a pressure that is only thought. */
  function uCooledK(atS: number, barG: number): number {
    if (atS === pressure.cameDown?.atS) return pressure.cameDown.uK;
    const [from] = pressure.away;
    if (from === undefined || atS <= from[0]) return 0;
    return COOLED_DOUBT * (around.boilingK(from[1]) - around.boilingK(barG));
  }
}

/** When the first entry says that steam is used. */
function steamUsedFromS(timeline: Timeline): number {
  const used = timeline.entries.find(
    (entry) =>
      entry.kind === "lap" ||
      entry.kind === "revolutions" ||
      (entry.kind === "regulator" && entry.state === "open") ||
      (entry.kind === "valve" && entry.state === "lifts") ||
      (entry.kind === "phase" && entry.name !== "raising"),
  );
  return used?.atS ?? Number.POSITIVE_INFINITY;
}

function nearest<T extends { atS: number }>(entries: readonly T[], atS: number): T | null {
  let best: T | null = null;
  for (const entry of entries) {
    if (best === null || Math.abs(entry.atS - atS) < Math.abs(best.atS - atS)) best = entry;
  }
  return best;
}
