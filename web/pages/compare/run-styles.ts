import type { Marker } from "../../charts/spec.ts";

/** How a run is told from the others: by letter, colour, dash and marker together. */
export interface RunStyle {
  letter: string;
  colour: string;
  dash: readonly number[];
  marker: Marker;
  hollow: boolean;
}

const colours = ["ink", "run-2", "run-3", "run-4", "run-5", "run-6"] as const;
const markers: readonly Marker[] = ["circle", "triangle", "square", "diamond", "cross", "star"];
const dashes: readonly (readonly number[])[] = [[], [9, 4], [2, 4], [12, 4, 2, 4], [5, 3], [14, 6]];

export const mostRuns = 12;

/** The second six bear the colours of the first with hollow marks and other dashes. */
export function runStyle(index: number): RunStyle {
  const i = index % colours.length;
  const again = index >= colours.length;
  return {
    letter: String.fromCharCode(65 + index),
    colour: colours[i] ?? "ink",
    dash: dashes[(i + (again ? 3 : 0)) % dashes.length] ?? [],
    marker: markers[(i + (again ? 2 : 0)) % markers.length] ?? "circle",
    hollow: again,
  };
}
