import { decimalsOfFit, fitSentence } from "../../../src/sizing/fit-words.ts";
import { inHundred, roundedUp, toDigits } from "../../../src/sizing/rounding.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { figureText } from "../../words/figure-text.ts";
import { asTaken, plain } from "../../words/number.ts";

/** The answer in a sentence or two: what suffices to the step that what is needed is told in, else to three digits. */
export function answerSentence(sizing: Sizing, planned: string): string {
  const { demand, bound, fit, probability } = sizing;
  if (demand.value === null || bound.value === null) {
    return `Nothing tells yet what ${planned} draw: ${demand.value === null ? demand.why : ""}.`;
  }
  const suffices =
    fit?.needed === true && fit.drawable
      ? plain(roundedUp(bound.value, decimalsOfFit(fit)), decimalsOfFit(fit))
      : asTaken(toDigits(bound.value, 3, "up"));
  const first = `For ${planned} she is expected to draw ${figureText(demand, "own-unit").value} ml; ${suffices} ml suffice ${inHundred(probability)} times in 100.`;
  return fit === null ? first : `${first} ${fitSentence(fit)}`;
}
