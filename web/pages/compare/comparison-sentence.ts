import type { Comparison } from "../../../src/compare/compare-runs.ts";
import { runStyle } from "./run-styles.ts";

/** What can be told apart, in a sentence: figures by name for two runs, counts for more. */
export function comparisonSentence({ runs, figures, differences }: Comparison): string {
  const apart = differences.filter((each) => each.toldApart === true);
  const judged = differences.filter((each) => each.toldApart !== null);
  const nameOf = (key: string) =>
    figures
      .find((figure) => figure.key === key)
      ?.name.split(",")[0]
      ?.toLowerCase() ?? key;
  if (judged.length === 0) return "These runs have no figure in common, so nothing can be compared.";
  if (apart.length === 0)
    return "No figure of these runs can be told apart: the differences lie within the doubt.";
  if (runs.length === 2) {
    const named = apart.slice(0, mostNamed).map((each) => nameOf(each.key));
    const more = apart.length - named.length;
    return `${apart.length} of ${judged.length} figures can be told apart: ${
      more > 0 ? `${named.join(", ")} and ${more} more` : listed(named)
    }. ${apart.length < judged.length ? "The rest lies within the doubt." : ""}`.trim();
  }
  const perRun = runs.slice(1).map((run, i) => {
    const count = apart.filter((each) => each.b === run.steamingId).length;
    return `${runStyle(i + 1).letter} in ${count}`;
  });
  return `Figures that can be told apart from A's: ${listed(perRun)}, of ${figures.length}.`;
}

const mostNamed = 3;

const listed = (words: readonly string[]): string =>
  words.length <= 1 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
