import { CAUTION_SENTENCES } from "./cautions.ts";

const NO_JUDGEMENT =
  "This sheet records and reckons; it does not say that a boiler is fit: that is for your club or licensing authority, its code and its appointed inspector.";

/** A number stays with its per cent and its doubt. */
const BETWEEN_WORDS = /(?<!±) (?![%±])/;

/** Sentences in lines of at most so many letters, broken between words. */
export function wrapped(sentences: readonly string[], letters: number): string[] {
  const lines: string[] = [];
  for (const word of sentences.join(" ").split(BETWEEN_WORDS)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** The foot of a sheet to read in a terminal. */
export const CAUTIONS = wrapped([...CAUTION_SENTENCES, NO_JUDGEMENT], 108);
