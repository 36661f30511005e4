import { type Reported, reported } from "../../quantity/reported.ts";
import type { Analysis } from "../analyse.ts";
import type { ColdHold, Held } from "../cold-hold/cold-hold.ts";

/** What a sheet tells beside the figures of the report. */
export interface Particulars {
  /** null where she was not held cold, or nothing tells when */
  held: HoldParticulars | null;
  /** how long a fire burnt, s; 0 where nothing tells */
  burntForS: number;
  /** what the axle pump gives with its by-pass shut over what she draws, both under way; null where that is not told */
  pumpTimesDrawn: Reported | null;
}

/** What is told beside the figures where nothing is. */
export const NOTHING_BESIDE: Particulars = { held: null, burntForS: 0, pumpTimesDrawn: null };

export interface HoldParticulars extends Held {
  /** mm */
  equivalentHole: Reported;
}

export const particularsOf = ({ coldHold, sources, pump }: Analysis): Particulars => ({
  held: holdParticulars(coldHold),
  burntForS: sources.fuel.fire.reduce((sum, [litS, outS]) => sum + outS - litS, 0),
  pumpTimesDrawn: pump === null || pump.timesDrawn === null ? null : reported(pump.timesDrawn),
});

/** Null where she was not held cold, or nothing tells when. */
export const holdParticulars = (hold: ColdHold | null): HoldParticulars | null =>
  hold === null || hold.held === null
    ? null
    : { ...hold.held, equivalentHole: reported(hold.equivalentHole) };
