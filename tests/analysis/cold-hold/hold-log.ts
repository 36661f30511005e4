import type { Entry } from "../../../src/logbook/entry.ts";
import { type Figure, isMeasured, type Measured } from "../../../src/quantity/measured.ts";

export const stroke = (count: number, barG: number, atS: number): Entry => ({
  kind: "strokes",
  count,
  barG,
  atS,
});
export const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
export const boilerAt = (celsius: number, atS: number): Entry => ({
  kind: "temperature",
  of: "boiler",
  celsius,
  atS,
});
/** 1 ml to fill her, then 0.25 ml/bar by a pump of 0.5 ml: 2 bar a stroke; held at 6 bar from 30 s on. */
export const up = [stroke(2, 0, 0), stroke(1, 2, 10), stroke(1, 4, 20), stroke(1, 6, 30)];

export const figure = (of: Figure | undefined): Measured => {
  if (of === undefined || !isMeasured(of)) throw new Error(`no figure: ${of?.why}`);
  return of;
};
