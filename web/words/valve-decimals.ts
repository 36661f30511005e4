import type { Report } from "../../src/analysis/report-schema.ts";
import { pressuresOf } from "../../src/analysis/words/valve-meaning.ts";
import { decimalsBeside } from "../../src/quantity/digits-beside.ts";
import { figureShown } from "./figure-shown.ts";
import { showingFor } from "./figure-text.ts";

/** Decimals of the valve's pressures in the reader's unit: they are compared by eye. */
export const valveDecimals = (valve: NonNullable<Report["safetyValve"]>): number | undefined =>
  decimalsBeside(pressuresOf(valve).map((figure) => figureShown(figure, showingFor("bar", "as-is")))) ??
  undefined;
