import { fitSentence } from "../../../src/sizing/fit-words.ts";
import { inHundred, roundedUp } from "../../../src/sizing/rounding.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { plain } from "../../words/number.ts";

/** The answer in a sentence or two. */
export function answerSentence(sizing: Sizing, planned: string): string {
  const { demand, bound, fit, probability } = sizing;
  if (demand.value === null || bound.value === null) {
    return `Nothing tells yet what ${planned} draw: ${demand.value === null ? demand.why : ""}.`;
  }
  const first = `For ${planned} she is expected to draw ${plain(demand.value, 0)} ml; ${plain(roundedUp(bound.value, 0), 0)} ml suffice ${inHundred(probability)} times in 100.`;
  return fit === null ? first : `${first} ${fitSentence(fit)}`;
}
