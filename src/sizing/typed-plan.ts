import type { Problem } from "../logbook/problems.ts";
import type { Plan } from "./plan-schema.ts";
import {
  isTooLong,
  LONGEST_WORDS,
  lengthMm,
  lengthWanted,
  SCALE_WORDS,
  scaleRatio,
  type TypedLength,
} from "./typed-length.ts";

/**
 * What of a plan being typed cannot be reckoned yet, said at its place. A page uses it at every key, without the
 * library that checks a whole plan; the server checks the plan again before it is kept.
 */
export function typedProblems(draft: unknown): Problem[] {
  const problems: Problem[] = [];
  look(draft, "", problems);
  const { plan, tanks, steamings } = (draft ?? {}) as Partial<Plan>;
  if (steamings?.length === 0) needed("steamings", "one run or more", problems);
  const amounts = [plan?.laps, plan?.minutes, plan?.distanceM].filter((amount) => amount !== undefined);
  if (amounts.length !== 1) needed("plan", "how long the run is to be: laps, minutes or metres", problems);
  tanks?.water.forEach((tank, i) => {
    const asked = tank.kind === "side-pair" ? ["length", "height", "base"] : ["length", "height", "width"];
    for (const key of asked) {
      if ((tank as Record<string, unknown>)[key] === undefined) {
        needed(`tanks.water[${i}].${key}`, "a length", problems);
      }
    }
    (tank.cutOuts ?? []).forEach((cut, c) => {
      for (const key of ["along", "length", "up", "height"] as const) {
        if (cut[key] === undefined) needed(`tanks.water[${i}].cutOuts[${c}].${key}`, "a length", problems);
      }
    });
    (tank.pipes ?? []).forEach((pipe, p) => {
      for (const key of ["diameter", "length"] as const) {
        if (pipe[key] === undefined) needed(`tanks.water[${i}].pipes[${p}].${key}`, "a length", problems);
      }
    });
  });
  const scale: unknown = tanks?.scale;
  if (scale !== undefined && (typeof scale !== "string" || scaleRatio(scale) === null)) {
    problems.push({ path: "tanks.scale", came: String(scale), wanted: SCALE_WORDS });
  }
  const beside = tanks?.water.some(({ kind }) => kind === "side-pair") === true;
  if (beside && tanks?.space?.loadingGauge === undefined) {
    needed("tanks.space.loadingGauge", "the loading gauge, as there are side tanks", problems);
  }
  if (tanks?.solve !== undefined && tanks.solve.atMost === undefined) {
    needed("tanks.solve.atMost", "a length", problems);
  }
  return problems;
}

function needed(path: string, wanted: string, problems: Problem[]): void {
  problems.push({ path, came: "nothing", wanted });
}

const wordKeys = new Set([
  "locomotiveId",
  "scale",
  "kind",
  "name",
  "innerFace",
  "cleadingSurface",
  "dimension",
  "steamings",
]);
/** Lengths that may be 0, or anything at all; all other lengths are more than 0. */
const mayBeNone = new Set([
  "lagging",
  "cleading",
  "band",
  "clearance",
  "platework",
  "rivets",
  "cornerRadius",
  "freeboard",
  "deadDepth",
  "nearest",
  "along",
  "up",
  "measuredWith",
]);

/** Plain numbers by their key, with the range that the plan's schema gives them. */
const ranges: Record<string, readonly [lowest: number, highest: number]> = {
  laps: [1e-9, 1e6],
  minutes: [1e-9, 1e6],
  distanceM: [1e-9, 1e9],
  trainMassKg: [0, 1e6],
  probability: [0.5, 0.999],
  reserveMl: [0, 1e9],
  allowanceMl: [0, 1e9],
  fromBoilerMl: [0, 1e9],
  usableFraction: [0.05, 1],
  spreadRelative: [1e-9, 2],
  pumpBodyMl: [0, 1e6],
  count: [0, 100],
  tank: [0, 11],
  holdsMl: [1e-9, 1e6],
  expansionFraction: [0.05, 0.1],
  liquidFraction: [1e-9, 0.8],
  conductivityWPerMK: [1e-9, 5],
  ambientC: [-40, 60],
  bendFactor: [0.2, 0.5],
};

function look(value: unknown, path: string, problems: Problem[]): void {
  if (Array.isArray(value)) {
    for (const [i, one] of value.entries()) look(one, `${path}[${i}]`, problems);
    return;
  }
  if (value === null || typeof value !== "object") return;
  for (const [key, inner] of Object.entries(value)) {
    if (wordKeys.has(key) || inner === undefined) continue;
    const at = path === "" ? key : `${path}.${key}`;
    // "lagging" is a thickness in the space, and an object of its own beside it
    if (typeof inner === "object") look(inner, at, problems);
    else {
      const wanted = wrong(key, inner);
      if (wanted !== null) problems.push({ path: at, came: String(inner), wanted });
    }
  }
}

function wrong(key: string, value: unknown): string | null {
  const range = ranges[key];
  if (range !== undefined) {
    const [lowest, highest] = range;
    const fits = typeof value === "number" && value >= lowest && value <= highest;
    return fits
      ? null
      : `a number of ${lowest < 1e-6 && lowest > 0 ? "more than 0" : `at least ${lowest}`} and at most ${highest}`;
  }
  const wanted = lengthWanted(value);
  if (wanted !== null) return wanted;
  const mm = lengthMm(value as TypedLength, 1) ?? 0;
  if (isTooLong(value as TypedLength)) return `a length of at most ${LONGEST_WORDS}`;
  if (key === "base" || mm > 0) return null;
  return mm === 0 && mayBeNone.has(key) ? null : "a length of more than 0";
}
