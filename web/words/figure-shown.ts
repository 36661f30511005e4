import type { Reported } from "../../src/quantity/reported.ts";
import { type Showing, toShown } from "../preferences/shown.ts";

/** A figure in the reader's unit; `scale` as well where it is printed as a percentage. */
export function figureShown(figure: Reported, as: Showing): Reported {
  if (figure.value === null) return figure;
  return {
    value: toShown(figure.value, as),
    u: figure.u * as.factor,
    lo95: toShown(figure.lo95, as),
    hi95: toShown(figure.hi95, as),
    unit: as.unit,
    ...(figure.parts === undefined
      ? {}
      : { parts: figure.parts.map((part) => ({ name: part.name, u: part.u * as.factor })) }),
  };
}
