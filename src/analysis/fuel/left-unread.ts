import { type Measured, scaled, standardUncertainty } from "../../quantity/measured.ts";
import { normalBelow, normalDensity } from "../../statistics/normal-distribution.ts";

/** What is thought of the part of the fuel that was burnt, from 0 to 1, or of one in that part: each with its chance. */
export type BurntPart = readonly { part: number; chance: number }[];

/** How a fire ended of which nobody looked at what was left. */
export type Ending =
  /** no tap and no grate tells: burnt dry with this chance, else put out */
  | { dryChance: number }
  /** a grate kept up: so much of all that was put on it lies there still, give or take */
  | { bedPart: number; uBedPart: number }
  /** a grate of which this part of all was laid at lighting, and none was fired since */
  | { laidPart: number };

const STEPS = 40;

/**
 * Burnt dry there is nothing left. Of a fire that was put out a little is commoner than a lot, for who puts fuel in means to
 * burn it: the chance of a part left falls evenly to none at all of it (our estimate). On a grate that was kept up lies what
 * was kept there, on one never fired again anything from nothing to what was laid.
 */
export function thoughtOf(ending: Ending): BurntPart {
  const steps = Array.from({ length: STEPS }, (_, i) => (i + 0.5) / STEPS);
  if ("dryChance" in ending) {
    const { dryChance } = ending;
    return inAll([
      ...steps.map((left) => ({ part: 1 - left, chance: (2 * (1 - left) * (1 - dryChance)) / STEPS })),
      { part: 1, chance: dryChance },
    ]);
  }
  if ("laidPart" in ending) return inAll(steps.map((of) => ({ part: 1 - of * ending.laidPart, chance: 1 })));
  const { bedPart, uBedPart } = ending;
  return inAll(
    steps.map((of) => {
      const left = bedPart + (of - 0.5) * 6 * uBedPart;
      return {
        part: 1 - left,
        chance: left < 0 || left >= 1 ? 0 : normalDensity((left - bedPart) / uBedPart),
      };
    }),
  );
}

/**
 * The same once it is known what the efficiency would be had all been burnt: the less was burnt, the higher it was, and
 * boilers of a kind are alike within a factor.
 * @param ifAll efficiency if all that was put in was burnt; of one at or below 0 nothing is told
 * @param usual median of such boilers, and relative standard deviation about it, that of `ifAll` included
 */
export function toldByHeat(
  thought: BurntPart,
  ifAll: number,
  usual: { efficiency: number; factor: number },
): BurntPart {
  if (!(ifAll > 0)) return thought;
  const told = thought.map(({ part, chance }) => ({
    part,
    chance: chance * normalDensity(Math.log(ifAll / part / usual.efficiency) / usual.factor),
  }));
  return told.some(({ chance }) => chance > 1e-9) ? inAll(told) : thought;
}

/** One in the part burnt: what goes by the fuel burnt goes as this. */
export const oneIn = (thought: BurntPart): BurntPart =>
  thought.map(({ part, chance }) => ({ part: 1 / part, chance }));

/** Of the twentieth of all that lies beyond the range, what may lie below it: half, or nearly all or none. */
const BELOW = [0.025, 0.045, 0.005];

/**
 * A figure as if all had been burnt, times the part that is thought to have been: its value the mean, its range the shortest of
 * both doubts together, for where it was most likely all there is little or nothing beyond that end.
 */
export function timesPart(ifAll: Measured, thought: BurntPart, name: string): Measured {
  const mean = thought.reduce((sum, { part, chance }) => sum + part * chance, 0);
  const sd = Math.sqrt(thought.reduce((sum, { part, chance }) => sum + chance * (part - mean) ** 2, 0));
  const uRelative = ifAll.value === 0 ? 0 : standardUncertainty(ifAll) / Math.abs(ifAll.value);
  const ranges = BELOW.map((chance): [number, number] => [
    partBelow(thought, chance, uRelative),
    partBelow(thought, chance + 0.95, uRelative),
  ]);
  const shortest = ranges.reduce((a, b) => (b[1] - b[0] < a[1] - a[0] ? b : a));
  const [low, high] = shortest.map((end) => ifAll.value * end).sort((a, b) => a - b) as [number, number];
  const parts = [...scaled(ifAll, mean, ifAll.unit).parts, { name, u: sd * Math.abs(ifAll.value) }];
  return {
    value: mean * ifAll.value,
    unit: ifAll.unit,
    parts: parts.filter(({ u }) => u !== 0),
    range95: [low, high],
  };
}

/** The part, read with a relative error, that lies above the truth with no more than the given chance: halved 30 times. */
function partBelow(thought: BurntPart, chance: number, uRelative: number): number {
  let [low, high] = [0, Math.max(...thought.map(({ part }) => part)) * (1 + 6 * uRelative)];
  for (let i = 0; i < 30; i += 1) {
    const middle = (low + high) / 2;
    const below = thought.reduce(
      (sum, one) => sum + one.chance * normalBelow((middle / one.part - 1) / Math.max(uRelative, 1e-6)),
      0,
    );
    if (below < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function inAll(parts: BurntPart): BurntPart {
  const all = parts.reduce((sum, { chance }) => sum + chance, 0);
  return parts.filter(({ chance }) => chance > 0).map(({ part, chance }) => ({ part, chance: chance / all }));
}
