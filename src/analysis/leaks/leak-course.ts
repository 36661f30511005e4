import { cooledExcessK, STILL_AIR_POWER } from "../../boiler/surface-loss.ts";
import { steamLeak } from "../../steam/leak-flow.ts";
import { saturationPressurePa } from "../../steam/saturation.ts";
import type { CoolingReading } from "../cooling/shut-in-course.ts";
import { NONE_BAR } from "../pressure/pressure-course.ts";
import type { Sources } from "../sources.ts";
import { ICE_POINT_K, PA_PER_BAR } from "../state/circumstances.ts";

/** What a leak of 1 g/min at working pressure lets out in a window of time. */
export interface LeakCourse {
  /** g */
  perLeakG: number;
  /** standard uncertainty of that, g: of what was not read, and of whether it is steam or water that leaks */
  uG: number;
  /** by how much more it is where boiling water leaks, as the root of the gauge pressure, g */
  ifWaterG: number;
  /** signed: by how much more it comes out, g, for a standard error of the dial */
  dialG: number;
}

/** Flow of steam through a leak at a gauge pressure, as a part of that at working pressure. */
export function leakShare({ around, locomotive }: Pick<Sources, "around" | "locomotive">) {
  const flow = (barG: number) => steamLeak(around.absolutePa(barG), around.atmospherePa, 1).massKgPerS;
  const working = flow(locomotive.workingPressureBarG);
  return (barG: number) => (barG > 0 ? flow(barG) / working : 0);
}

const STEP_S = 10;
/** Between two readings the pressure may have strayed from the straight line by about this part of their difference. */
const STRAYED = 0.2;
/** How far off the fall may lie where nobody read it any more, and the rise where nobody read it yet (our estimate). */
const CARRIED_ON = 0.15;
const BEFORE = { share: 0.5, u: 0.3 };
/** Hot water leaks as the root of the pressure: so much of the difference is in doubt (our choice). */
const IF_WATER = 0.5;

/**
 * A leak follows the pressure: straight between readings, none before first steam, and after the last reading as she goes
 * on cooling by the law of still air.
 * @param cooling readings of the shut-in, which tell how fast she cools
 */
export function leakCourse(
  from: Sources,
  cooling: readonly CoolingReading[],
  fromS: number,
  toS: number,
): LeakCourse {
  const { pressure, errors, locomotive } = from;
  const steam = leakShare(from);
  const water = (barG: number) => Math.sqrt(barG / locomotive.workingPressureBarG);
  const [firstReadS, lastReadS] = [pressure.points[0]?.[0] ?? toS, pressure.points.at(-1)?.[0] ?? fromS];
  const steamS = pressure.firstSteamS ?? Number.NEGATIVE_INFINITY;
  const [readFromS, readToS] = [Math.max(fromS, firstReadS, steamS), Math.min(toS, lastReadS)];
  const asRead = (atS: number) => pressure.atS(atS) ?? 0;
  const goesOn = coolingOn(from, cooling, lastReadS);
  const after = over(Math.max(fromS, lastReadS), toS, (atS) => steam(goesOn(atS)));
  const whole = (share: (barG: number) => number, offBar = 0) => {
    const at = (barG: number) => (barG > NONE_BAR ? share(barG + offBar) : 0);
    return (
      over(readFromS, readToS, (atS) => at(asRead(atS))) +
      over(Math.max(fromS, lastReadS), toS, (atS) => at(goesOn(atS)))
    );
  };
  const strayed = pressure.points.slice(1).map(([atS, barG], i) => {
    const [beforeS, beforeBar] = pressure.points[i] ?? [atS, barG];
    const minutes = Math.max(0, Math.min(atS, toS) - Math.max(beforeS, readFromS)) / 60;
    return STRAYED * Math.abs(steam(barG) - steam(beforeBar)) * minutes;
  });
  const unreadMin = pressure.beganInSteam ? Math.max(0, Math.min(toS, firstReadS) - fromS) / 60 : 0;
  const told = whole(steam);
  const ifWaterG = whole(water) - told;
  return {
    perLeakG: told + BEFORE.share * unreadMin,
    uG: Math.hypot(...strayed, CARRIED_ON * after, BEFORE.u * unreadMin, IF_WATER * ifWaterG),
    ifWaterG,
    dialG: whole(steam, errors.pressureBiasBar) - told,
  };
}

/** Minutes of full flow between two moments. */
function over(fromS: number, toS: number, shareAt: (atS: number) => number): number {
  if (!(toS > fromS)) return 0;
  const steps = Math.ceil((toS - fromS) / STEP_S);
  const stepS = (toS - fromS) / steps;
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += shareAt(fromS + (i + 0.5) * stepS);
  return (sum * stepS) / 60;
}

/** Gauge pressure after the last reading. */
function coolingOn(from: Sources, cooling: readonly CoolingReading[], lastReadS: number) {
  const { around } = from;
  const airK = around.ambientC + ICE_POINT_K;
  const excessK = (barG: number) => around.boilingK(barG) - airK;
  const [first, last] = [cooling[0], cooling.at(-1)];
  const lastBar = from.pressure.atS(lastReadS) ?? 0;
  if (first === undefined || last === undefined || !(last.barG < first.barG))
    return (atS: number) => from.pressure.atS(atS) ?? 0;
  const power = 1 - STILL_AIR_POWER;
  const rate = (excessK(last.barG) ** power - excessK(first.barG) ** power) / -power / (last.atS - first.atS);
  return (atS: number) => {
    const kelvin = airK + cooledExcessK(excessK(lastBar), rate, atS - lastReadS);
    return (saturationPressurePa(kelvin) - around.atmospherePa) / PA_PER_BAR;
  };
}
