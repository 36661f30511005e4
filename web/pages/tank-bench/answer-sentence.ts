import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { plain } from "../../words/number.ts";

const ml = (value: number): string => `${plain(value, 0)} ml`;

/** The answer in a sentence or two. */
export function answerSentence(sizing: Sizing, planned: string): string {
  const { demand, bound, fit, probability } = sizing;
  if (demand.value === null || bound.value === null) {
    return `Nothing tells yet what ${planned} draw: ${demand.value === null ? demand.why : ""}.`;
  }
  const first = `For ${planned} she is expected to draw ${ml(demand.value)}; ${ml(bound.value)} suffice ${plain(100 * probability, 0)} times in 100.`;
  if (fit === null) return first;
  if (fit.short !== null) {
    return `${first} The tanks hold ${ml(fit.usableMl)} to use where ${ml(fit.waterMl)} are needed: ${ml(fit.short.ml)} short.`;
  }
  const { solved } = fit;
  const found =
    solved === null || solved.mm === null
      ? ""
      : ` with a ${solved.dimension} of ${plain(solved.mm, 1)} mm for the ${solved.tank}`;
  return `${first} The tanks hold ${ml(fit.usableMl)} to use${found}, and ${ml(fit.waterMl)} are needed: enough.`;
}
