import { reasonInShort } from "../../src/analysis/words/figure-words.ts";
import { withinSentence } from "../../src/analysis/words/within-sentence.ts";
import { capital } from "../words/capital.ts";
import type { FigureGroup } from "../words/report-figures.ts";

/** Figures of these groups are known by their own names. */
const wellNamed = ["What it came to", "In all"];

/** "Steaming rate, phase by phase" is the steaming rate. */
const inShort = (name: string): string => name.split(",")[0] ?? name;

/** The figures that cannot be had, a sentence for each reason: "Fuel a lap, safety valve (reseats at): ...". */
export function leftOpen(groups: readonly FigureGroup[]): string[] {
  const named = new Map<string, string[]>();
  for (const { title, lines } of groups) {
    const byReason = new Map<string, string[]>();
    for (const { name, figure } of lines) {
      if (figure.value !== null) continue;
      const why = reasonInShort(figure.why);
      byReason.set(why, [...(byReason.get(why) ?? []), withinSentence(inShort(name))]);
    }
    for (const [why, names] of byReason) {
      const together = names.join(", ");
      const words = wellNamed.includes(title) ? together : `${withinSentence(inShort(title))} (${together})`;
      named.set(why, [...(named.get(why) ?? []), words]);
    }
  }
  return [...named].map(([why, names]) => `${capital(names.join(", "))}: ${why}.`);
}

/** All but so many of such sentences, and how many are left out. */
export function inParagraph(sentences: readonly string[], leftOut: number): string {
  const shown = sentences.slice(0, sentences.length - leftOut).join(" ");
  if (leftOut === 0) return shown;
  return `${shown} ${leftOut} ${shown === "" ? "" : "more "}${leftOut === 1 ? "reason" : "reasons"} on the screen.`.trim();
}
