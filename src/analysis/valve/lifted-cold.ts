import { absent, type Figure, type Measured } from "../../quantity/measured.ts";
import { pressuresRead } from "../cold-hold/pressures-read.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { FURTHEST_S } from "./valve-stretch.ts";
import { U_MOMENT_S } from "./valve-usual.ts";

const NO_FIRE =
  "the valve was tried cold, by the pump: no fire was there to raise the pressure against it, and a hydraulic test goes above working pressure on purpose";

/** A valve that the hand pump lifted with cold water: where it lifted and shut, and nothing of what it would hold at full fire. */
export function liftedCold(from: Sources): Record<"lift" | "reseat" | "highest" | "rise", Figure> {
  return {
    lift: markOf(from, "lifts", "lift"),
    reseat: markOf(from, "reseats", "reseat"),
    highest: absent(NO_FIRE),
    rise: absent(NO_FIRE),
  };
}

function markOf(from: Sources, state: "lifts" | "reseats", words: string): Figure {
  const seen = from.timeline.of("valve").filter((entry) => entry.state === state);
  if (seen.length === 0) return absent(`the valve was not seen to ${words}`);
  const read = seen.flatMap(({ atS }) => readAbout(from, atS) ?? []);
  if (read.length === 0)
    return absent(`no pressure was read near enough to the ${words}: read the dial as it happens`);
  const mean = (of: (one: About) => number) => read.reduce((sum, one) => sum + of(one), 0) / read.length;
  const together = (of: (one: About) => number) => Math.hypot(...read.map(of)) / read.length;
  const figure: Measured = {
    value: mean(({ barG }) => barG),
    unit: "bar",
    parts: [
      { name: "pressure readings", u: together(({ uBar }) => uBar) },
      { name: "moment of the valve", u: together(({ apartBar }) => apartBar) },
      {
        name: "bias of the pressure dial",
        source: sharedSource.dial(from.locomotive),
        u: from.errors.pressureBiasBar,
      },
    ],
  };
  return { ...figure, parts: figure.parts.filter(({ u }) => u > 0) };
}

interface About {
  barG: number;
  /** of the readings alone */
  uBar: number;
  /** by how much they stand apart */
  apartBar: number;
}

/**
 * The pressure at a moment of the valve: what strokes reached or the dial showed about it, each as likely as the moment was
 * its own. Between strokes it stands. Null where nothing was read near.
 */
function readAbout(from: Sources, atS: number): About | null {
  const near = pressuresRead(from).filter((read) => Math.abs(read.atS - atS) <= FURTHEST_S);
  if (near.length === 0) return null;
  const weights = near.map((read) => Math.exp(-0.5 * ((read.atS - atS) / U_MOMENT_S) ** 2));
  const total = weights.reduce((a, b) => a + b, 0);
  const share = (i: number) => (weights[i] as number) / total;
  const barG = near.reduce((sum, read, i) => sum + share(i) * read.barG, 0);
  return {
    barG,
    uBar: Math.hypot(...near.map((read, i) => share(i) * read.uBar)),
    apartBar: Math.sqrt(near.reduce((sum, read, i) => sum + share(i) * (read.barG - barG) ** 2, 0)),
  };
}
