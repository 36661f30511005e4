import type { Signs } from "./engine-signs.ts";
import {
  chanceByAccident,
  chanceOf,
  checkOfSign,
  circumstances,
  type Fault,
  faults,
  type Sign,
  signWords,
} from "./suspect-table.ts";

export interface Suspect {
  name: string;
  /** names of the fittings of this kind that are seen to leak */
  fittings: string[];
  /** share of the blame, 0 to 1 */
  weight: number;
  why: string;
  speaksFor: string[];
  speaksAgainst: string[];
  check: string;
}

/**
 * Something is suspected when the signs are so many times as likely by the faults, taken as often as they are usual, as
 * with nothing the matter; below 1, as a fault seldom shows all its signs (our choice, by simulated seasons).
 */
const LIKELIER = 0.45;
/** Nor is anything suspected unless a sign is as sure as this. */
const SURE_SIGN = 0.6;
const MOST_SUSPECTS = 3;
const LEAST_WEIGHT = 0.1;

/**
 * Where to look first, by Bayes' rule from the signs: for each fault how much likelier they are if it is there than if
 * nothing is the matter. A sign of which nothing is known says nothing either way.
 * @param signsFor the signs that count for a fault: after a service of its fitting other ones than for the rest
 * @param speaking names of the fittings that give a sign
 */
export function suspectsOf(
  signsFor: (fault: Fault) => Signs,
  candidates: readonly Fault[] = faults,
  speaking: Speaking = new Map(),
): Suspect[] {
  const scored = candidates.map((fault) => {
    const signs = signsFor(fault);
    return { fault, signs, odds: fault.usual * likelihoodRatio(fault, signs) };
  });
  const total = scored.reduce((sum, { odds }) => sum + odds, 0);
  const usual = scored.reduce((sum, { fault }) => sum + fault.usual, 0);
  if (total < LIKELIER * usual || !scored.some(hasSureSign)) return [];
  const listed = scored
    .map((one) => ({ ...one, weight: one.odds / total }))
    .filter((one) => one.weight >= LEAST_WEIGHT && signsFound(one).length > 0)
    .sort((a, b) => b.weight - a.weight)
    .slice(0, MOST_SUSPECTS);
  return listed.map((one, place) => suspect(one, listed[place === 0 ? 1 : 0], speaking));
}

type Speaking = ReadonlyMap<Sign, readonly string[]>;

interface Looked {
  fault: Fault;
  signs: Signs;
}

/** Signs that a fault shows and that are rather there than not. */
const signsFound = ({ fault, signs }: Looked, sureFrom = 0.5): Sign[] =>
  [...signs]
    .filter(([sign, sure]) => sure > sureFrom && fault.shows[sign] !== undefined)
    .map(([sign]) => sign);

const hasSureSign = (one: Looked): boolean =>
  signsFound(one, SURE_SIGN).some((sign) => !circumstances.includes(sign));

function likelihoodRatio(fault: Fault, signs: Signs): number {
  let product = 1;
  for (const [sign, sure] of signs) {
    const given = (chance: number) => sure * chance + (1 - sure) * (1 - chance);
    product *= given(chanceOf(fault, sign)) / given(chanceByAccident(sign));
  }
  return product;
}

interface Weighed extends Looked {
  weight: number;
}

function suspect({ fault, signs, weight }: Weighed, rival: Weighed | undefined, speaking: Speaking): Suspect {
  /** "a gland drips or is seen to leak (Right piston gland)" */
  const words = (sign: Sign) => {
    const names = speaking.get(sign) ?? [];
    return `${signWords[sign]}${names.length === 0 ? "" : ` (${names.join(", ")})`}`;
  };
  const found = signsFound({ fault, signs });
  const there = [...signs].filter(([, sure]) => sure > 0.5).map(([sign]) => sign);
  const missing = [...signs].filter(([, sure]) => sure < 0.5).map(([sign]) => sign);
  const speaksFor = found.map((sign) => signWords[sign]);
  const speaksAgainst = [
    ...there
      .filter((sign) => fault.shows[sign] === undefined && !circumstances.includes(sign))
      .map((sign) => `${words(sign)}, which it would not explain`),
    ...missing.filter((sign) => chanceOf(fault, sign) > 0.5).map((sign) => `not so that ${signWords[sign]}`),
  ];
  const con = speaksAgainst.length === 0 ? "nothing that was logged" : speaksAgainst.join("; ");
  return {
    name: fault.name,
    fittings: found.flatMap((sign) => speaking.get(sign) ?? []),
    weight,
    why: `For: ${found.map(words).join("; ")}. Against: ${con}. By common practice, ${Math.round(100 * weight)} in 100.`,
    speaksFor,
    speaksAgainst,
    check: `${fault.check}${rival === undefined ? "" : apartFrom(fault, signs, rival.fault)}`,
  };
}

/** A sign that is not known yet must tell two suspects apart by so much of a chance to be worth looking for. */
const WORTH_LOOKING = 0.3;

/** " To tell it from the regulator: ..."; nothing where no sign that is still open would. */
function apartFrom(fault: Fault, signs: Signs, rival: Fault): string {
  const open = (sign: Sign) => {
    const sure = signs.get(sign);
    return sure === undefined ? 1 : 4 * sure * (1 - sure);
  };
  const [best] = (Object.keys(checkOfSign) as Sign[])
    .map((sign) => ({ sign, tells: open(sign) * Math.abs(chanceOf(fault, sign) - chanceOf(rival, sign)) }))
    .sort((a, b) => b.tells - a.tells);
  if (best === undefined || best.tells < WORTH_LOOKING) return "";
  const more = chanceOf(fault, best.sign) > chanceOf(rival, best.sign) ? fault : rival;
  return ` To tell ${named(fault)} from ${named(rival)}: ${checkOfSign[best.sign]}; if so, it is rather ${named(more)}.`;
}

/** "the clack", but "priming". */
const named = ({ name, kind }: Fault): string => (kind === undefined ? name : `the ${name}`);
