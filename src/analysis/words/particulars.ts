import { type Reported, reported } from "../../quantity/reported.ts";
import type { Analysis } from "../analyse.ts";
import type { ColdHold, Held } from "../cold-hold/cold-hold.ts";

/** What a sheet tells beside the figures of the report. */
export interface Particulars {
  /** null where she was not held cold, or nothing tells when */
  held: HoldParticulars | null;
  /** how long a fire burnt, s; 0 where nothing tells */
  burntForS: number;
}

export interface HoldParticulars extends Held {
  /** mm */
  equivalentHole: Reported;
}

export const particularsOf = ({ coldHold, sources }: Analysis): Particulars => ({
  held: holdParticulars(coldHold),
  burntForS: sources.fuel.fire.reduce((sum, [litS, outS]) => sum + outS - litS, 0),
});

/** Null where she was not held cold, or nothing tells when. */
export const holdParticulars = (hold: ColdHold | null): HoldParticulars | null =>
  hold === null || hold.held === null
    ? null
    : { ...hold.held, equivalentHole: reported(hold.equivalentHole) };
