import { gathered, type Measured, type Part } from "../../quantity/measured.ts";
import { positivePart } from "../../statistics/positive-part.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { cornerAt } from "./valve-corner.ts";
import type { Moment } from "./valve-moment.ts";
import { plungesIn } from "./valve-usual.ts";

/** The mean of so many corners is no more in doubt than that of all, beside the bias that they share. */
const MOST_CORNERS = 40;

/**
 * Pressure at moments of one kind from a logger's own samples, which show how it went and ask for no form of it: bent to
 * either side of the moment, with a corner there, the moment anywhere about where it was written. Where there is a corner
 * the samples say when it was; where there is none, its doubt stays. Null where no moment has close samples
 * on both sides of it and, for a reseat, a bend that is the valve's; those that have speak for all.
 */
export function loggedAt(from: Sources, wanted: readonly Moment[], all: readonly Moment[]): Measured | null {
  const { errors, locomotive } = from;
  const working = locomotive.workingPressureBarG;
  const logged = from.pressures.all.filter(({ by }) => by === "logger");
  const plungesS = plungesIn(from.timeline);
  const told = evenly(wanted, MOST_CORNERS).flatMap((moment) => {
    const othersS = all.filter(({ atS }) => atS !== moment.atS).map(({ atS }) => atS - moment.atS);
    return cornerAt(logged, moment, othersS, plungesS, working) ?? [];
  });
  if (told.length === 0) return null;
  const weights = told.map(({ u }) => 1 / u ** 2);
  const total = weights.reduce((a, b) => a + b, 0);
  const value = told.reduce((sum, one, i) => sum + (one.value * (weights[i] as number)) / total, 0);
  const apart = told.reduce((sum, one) => sum + ((one.value - value) / one.u) ** 2, 0);
  /** the moments' own pressures may lie further apart than they are in doubt (Birge's ratio, Physical Review 40 (1932) 207) */
  const wider = Math.sqrt(Math.max(1, apart / Math.max(1, told.length - 1)));
  const own = told.flatMap(({ parts }, i) =>
    parts.map((part): Part => ({ ...part, u: (wider * part.u * (weights[i] as number)) / total })),
  );
  const squares = new Map<string, number>();
  for (const { name, u } of own) squares.set(name, (squares.get(name) ?? 0) + u ** 2);
  return {
    unit: "bar",
    value,
    parts: [
      ...[...squares].map(([name, square]): Part => ({ name, u: Math.sqrt(square) })),
      {
        name: "bias of the pressure dial",
        source: sharedSource.dial(locomotive),
        u: errors.pressureBiasBar,
      },
    ],
  };
}

/** So many at most of a list, spread over it. */
const evenly = <One>(list: readonly One[], most: number): One[] =>
  list.filter((_, i) => Math.floor((i * most) / list.length) > Math.floor(((i - 1) * most) / list.length));

/** The greater of a lift and of what the logger showed where it stood highest; both share the bias. */
export function greaterOf(lift: Measured, top: Measured): Measured {
  const own = ({ parts }: Measured) => parts.filter(({ source }) => source === undefined);
  const u = Math.hypot(...[...own(lift), ...own(top)].map((part) => part.u));
  const { mean, share, uBent } = positivePart(top.value - lift.value, u);
  const scaledBy = (figure: Measured, by: number) => own(figure).map((part) => ({ ...part, u: by * part.u }));
  return {
    unit: "bar",
    value: lift.value + mean,
    parts: gathered([
      ...scaledBy(lift, 1 - share),
      ...scaledBy(top, share),
      ...lift.parts.filter(({ source }) => source !== undefined),
      { name: "pressure between readings", u: uBent },
    ]),
  };
}
