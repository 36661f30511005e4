import type { Reported } from "../../src/quantity/reported.ts";
import type { Form } from "./figure-text.ts";

/** One line of the test sheet's figures. */
export interface FigureLine {
  /** its place in the report, such as "perLap.water" */
  key: string;
  name: string;
  note?: string;
  figure: Reported;
  form?: Form;
  /** in the reader's unit, where other figures are compared with it by eye */
  decimals?: number | undefined;
}
