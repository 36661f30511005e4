import { gapBetween, heldAndNeeded, roundedUp } from "./rounding.ts";
import type { Sizing } from "./sizing-schema.ts";

type Fit = NonNullable<Sizing["fit"]>;

/** Whether the tanks serve, in a sentence or two. */
export function fitSentence(fit: Fit): string {
  const { why, short, solved } = fit;
  if (!fit.needed) return `${capital(why ?? "no tank is needed")}.`;
  const gap = short === null ? "" : ` ${capital(short.words)}.`;
  if (!fit.drawable) return `The tanks are of no use so: ${why}.${gap}`;
  if (why !== null) return `Not enough as it stands: ${why}.${gap}`;
  const { holds, needs } = heldWords(fit);
  if (short === null)
    return `The tanks hold ${holds} to use${foundWords(solved)}, and ${needs} are needed: enough.`;
  const tried = solved === null || solved.why === null || !solved.needed ? "" : `${capital(solved.why)}. `;
  return `${tried}The tanks hold ${holds} to use where ${needs} are needed: ${short.words}.`;
}

/** The same in as few words as a strip at the foot of a phone's screen has room for. */
export function fitStrip(fit: Fit): string {
  if (!fit.needed) return "No tank is needed";
  if (!fit.drawable) return `No feed in steam: ${fitInAWord(fit)}`;
  const { holds, needs } = heldWords(fit);
  return `Holds ${holds} of ${needs} needed: ${fitInAWord(fit)}`;
}

export function fitInAWord(fit: Fit): string {
  if (!fit.needed) return "no tank needed";
  if (fit.short !== null) {
    const gap = fit.drawable ? gapBetween(fit.usableMl, fit.waterMl) : roundedUp(fit.short.ml, 0);
    return `${gap} ml short`;
  }
  return fit.enough ? "enough" : "cannot be so";
}

/** Decimals that what is held and what is needed are told with. */
export const decimalsOfFit = (fit: Fit): number => heldAndNeeded(fit.usableMl, fit.waterMl).decimals;

/** What is held for use and what is needed, never told the wrong way round. */
export function heldWords(fit: Fit): { holds: string; needs: string } {
  const { held, needed, decimals } = heldAndNeeded(fit.usableMl, fit.waterMl);
  return { holds: `${held.toFixed(decimals)} ml`, needs: `${needed.toFixed(decimals)} ml` };
}

function foundWords(solved: Fit["solved"]): string {
  if (solved === null) return "";
  if (!solved.needed) return ` without the ${solved.tank}`;
  return solved.mm === null
    ? ""
    : ` with a ${solved.dimension} of ${solved.mm.toFixed(1)} mm for the ${solved.tank}`;
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
