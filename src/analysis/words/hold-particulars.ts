import { type Reported, reported } from "../../quantity/reported.ts";
import type { ColdHold, Held } from "../cold-hold/cold-hold.ts";

/** What a sheet tells of a cold hold beside the figures of the report. */
export interface HoldParticulars extends Held {
  /** mm */
  equivalentHole: Reported;
}

/** Null where she was not held cold, or nothing tells when. */
export const holdParticulars = (hold: ColdHold | null): HoldParticulars | null =>
  hold === null || hold.held === null
    ? null
    : { ...hold.held, equivalentHole: reported(hold.equivalentHole) };
