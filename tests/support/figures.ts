import type { Reported } from "../../src/quantity/reported.ts";

/** The value of a reported figure; an error with the reason where there is none. */
export function figureValue(figure: Reported | null | undefined): number {
  if (figure === null || figure === undefined) throw new Error("the section is null");
  if (figure.value === null) throw new Error(`no figure: ${figure.why}`);
  return figure.value;
}
