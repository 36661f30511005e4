import type { Figure } from "../../src/quantity/measured.ts";

/** A figure of the report and what it was in truth; truth is null where the simulation has none to compare. */
export interface Judged {
  name: string;
  figure: Figure;
  truth: number | null;
}
