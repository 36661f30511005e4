import { type Figure, gathered, interval, isMeasured } from "./measured.ts";

/** A figure as the report prints it (the contract's Measured). */
export type Reported =
  | {
      value: number;
      u: number;
      lo95: number;
      hi95: number;
      unit: string;
      parts?: { name: string; u: number }[] | undefined;
    }
  | { value: null; why: string };

/** The same with its sign turned: what lies below instead of above. */
export const turned = (figure: Reported): Reported =>
  figure.value === null
    ? figure
    : { ...figure, value: -figure.value, lo95: -figure.hi95, hi95: -figure.lo95 };

export function reported(figure: Figure): Reported {
  if (!isMeasured(figure)) return { value: null, why: figure.why };
  const [lo95, hi95] = interval(figure);
  const parts = gathered(figure.parts).map((part) => ({ name: part.name, u: Math.abs(part.u) }));
  return {
    value: figure.value,
    u: Math.hypot(...parts.map((part) => part.u)),
    lo95,
    hi95,
    unit: figure.unit,
    ...(parts.length > 0 ? { parts } : {}),
  };
}
