import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";
import { perhapsNothing, toldFromNothing } from "./told-from-nothing.ts";
import { withinSentence } from "./within-sentence.ts";

/**
 * The largest of the drips caught, and the round hole that would let out as much; null where none was caught.
 * @param words the figures put into words by who prints them, null where not to be had; the rate without its range too
 */
export function dripSentence(
  leaks: Report["leaks"],
  { fittings }: Locomotive,
  words: Record<"rate" | "bareRate" | "hole", (figure: Reported) => string | null>,
): string | null {
  const largest = (leaks ?? []).reduce<NonNullable<Report["leaks"]>[number] | null>(
    (most, leak) =>
      leak.rate.value !== null && (most === null || leak.rate.value > (most.rate.value ?? 0)) ? leak : most,
    null,
  );
  if (largest === null || largest.rate.value === null) return null;
  if (!toldFromNothing(largest.rate))
    return `What dripped is ${perhapsNothing(largest.rate, words.bareRate)} at working pressure.`;
  const name = fittings.find((fitting) => fitting.id === largest.fitting)?.name ?? largest.fitting;
  const hole = words.hole(largest.equivalentHole);
  const asHole = hole === null ? "" : `, as much as a round hole of ${hole} would let out`;
  return `${(leaks ?? []).length > 1 ? "Most dripped from" : "It dripped from"} ${theFitting(name)}: ${words.rate(largest.rate)} at working pressure${asHole}.`;
}

/** A fitting within a sentence, but for one that begins with a capital of its own. */
const theFitting = (name: string): string =>
  withinSentence(name) === name ? name : `the ${withinSentence(name)}`;
