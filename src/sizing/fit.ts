import { checkedMm } from "./build-up.ts";
import { heldBy, type Layout, usableMl, withDimension } from "./layout.ts";
import { sensitivitiesOf } from "./sensitivity.ts";
import type { Sizing } from "./sizing-schema.ts";
import { type Closer, closersOf, dimensionFor } from "./solve.ts";
import type { Tanks } from "./tanks-schema.ts";

export type Fit = NonNullable<Sizing["fit"]>;

export interface Fitted {
  /** with the free dimension as it was solved */
  layout: Layout;
  fit: Fit;
}

/** What one lap, minute or metre takes at the bound: the measure of a gap. */
export interface PlanMeasure {
  mlPerUnit: number;
  unit: string;
}

export const tankName = (layout: Layout, place: number): string => {
  const tank = layout.tanks[place];
  return tank === undefined
    ? `tank ${place + 1}`
    : (tank.name ?? heldBy(layout, tank).shape?.name ?? `${tank.kind} tanks`);
};

/** Solves the free dimension where one is named, else judges the tanks as they stand. */
export function fitted(layout: Layout, solve: Tanks["solve"], waterMl: number, measure: PlanMeasure): Fitted {
  if (solve === undefined) return { layout, fit: judged(layout, null, waterMl, measure) };
  const atMostMm = checkedMm(solve.atMost, layout.scale);
  const name = tankName(layout, solve.tank);
  const mm = dimensionFor(layout, solve.tank, solve.dimension, waterMl, atMostMm);
  const at = mm ?? atMostMm;
  const solvedLayout = withDimension(layout, solve.tank, solve.dimension, at);
  const own = solvedLayout.tanks[solve.tank];
  const impossible = own === undefined ? null : heldBy(solvedLayout, own).why;
  const why =
    mm !== null
      ? null
      : (impossible ?? `even at ${atMostMm.toFixed(1)} mm, the most allowed, the tanks hold too little`);
  const solved = { tank: name, dimension: solve.dimension, mm, why };
  return { layout: solvedLayout, fit: judged(solvedLayout, solved, waterMl, measure) };
}

function judged(layout: Layout, solved: Fit["solved"], waterMl: number, measure: PlanMeasure): Fit {
  const usable = usableMl(layout);
  const shortMl = waterMl - usable;
  const enough = shortMl <= 1e-6;
  return {
    waterMl,
    usableMl: usable,
    enough,
    solved,
    short: enough ? null : gapOf(layout, waterMl, shortMl, measure),
    sensitivity: sensitivitiesOf(layout),
  };
}

function gapOf(
  layout: Layout,
  waterMl: number,
  shortMl: number,
  measure: PlanMeasure,
): NonNullable<Fit["short"]> {
  const ofPlan = shortMl / measure.mlPerUnit;
  const closers = closersOf(layout, waterMl).map(named(layout));
  const [best] = closers;
  const byMm =
    best === undefined ? "" : `, or ${best.moreMm.toFixed(1)} mm more ${best.dimension} of the ${best.tank}`;
  const words = `${shortMl.toFixed(0)} ml short: a plan shorter by ${ofPlan.toFixed(1)} ${measure.unit} would do${byMm}, or another tank of ${Math.ceil(shortMl)} ml for use (well, bunker, tender)`;
  return { ml: shortMl, ofPlan, unit: measure.unit, closers, words };
}

const named =
  (layout: Layout) =>
  ({ tank, dimension, moreMm }: Closer) => ({ tank: tankName(layout, tank), dimension, moreMm });
