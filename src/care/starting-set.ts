import type { Fitting, Locomotive } from "../logbook/locomotive.ts";

/** The fittings that an engine of this drawing usually has, to begin a list with: common practice. */
export function startingSet({ cylinders, axlePump, handPump }: Locomotive): Fitting[] {
  const sides = sidesOf(cylinders?.count ?? 0);
  const perCylinder = (what: string): Fitting[] =>
    sides.map((side) => fitting(`${side}${side === "" ? "" : " "}${what}`, "gland"));
  return [
    ...perCylinder("piston gland"),
    ...perCylinder("valve spindle gland"),
    fitting("regulator", "regulator"),
    fitting("regulator gland", "gland"),
    fitting("safety valve", "safety-valve"),
    fitting("gauge glass, top nut", "gauge-glass"),
    fitting("gauge glass, bottom nut", "gauge-glass"),
    fitting("turret joint", "joint"),
    ...(axlePump === undefined && handPump === undefined ? [] : [fitting("feed clack", "clack")]),
    ...(axlePump === undefined ? [] : [fitting("axle pump gland", "pump"), fitting("by-pass", "other")]),
    ...(handPump === undefined ? [] : [fitting("hand pump", "pump")]),
    ...(sides.length === 0 ? [] : [fitting("lubricator", "lubricator")]),
  ];
}

/** Those of the starting set that the engine's list has not got, by their id. */
export const missingFromStartingSet = (engine: Locomotive): Fitting[] =>
  startingSet(engine).filter(({ id }) => !engine.fittings.some((present) => present.id === id));

const sidesOf = (count: number): string[] =>
  count === 1
    ? [""]
    : count === 2
      ? ["right", "left"]
      : Array.from({ length: count }, (_, i) => `cylinder ${i + 1}`);

const fitting = (name: string, kind: Fitting["kind"]): Fitting => ({
  id: name.replace(/[^a-z0-9]+/g, "-"),
  name: name.replace(/^./, (letter) => letter.toUpperCase()),
  kind,
});
