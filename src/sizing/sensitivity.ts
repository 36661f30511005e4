import {
  dimensionMm,
  heldBy,
  type Layout,
  tankDimensions,
  usableMl,
  withBuildUp,
  withDimension,
} from "./layout.ts";

/** What one millimetre more of a dimension is worth in usable water. */
export interface Sensitivity {
  dimension: string;
  mlPerMm: number;
}

const SMALL_MM = 1e-3;

const dimensionNames = {
  length: "length",
  height: "height",
  width: "width",
  plate: "plate",
  freeboard: "freeboard",
  deadDepth: "dead depth",
} as const;

/** Tanks that can be made. */
const makeable = (layout: Layout): number =>
  layout.tanks.filter((tank) => heldBy(layout, tank).water !== null).length;

/** All dimensions that change the usable water: what buys most first, what costs most last. */
export function sensitivitiesOf(layout: Layout): Sensitivity[] {
  const now = { ml: usableMl(layout), tanks: makeable(layout) };
  const side = (at: (changeMm: number) => Layout, changeMm: number): number | null => {
    const changed = at(changeMm);
    return makeable(changed) === now.tanks ? (usableMl(changed) - now.ml) / changeMm : null;
  };
  // upwards, as that is what is asked; downwards only where one more hair of it cannot be made
  const slope = (at: (changeMm: number) => Layout): number => {
    const [up, down] = [side(at, SMALL_MM), side(at, -SMALL_MM)];
    if (up === null || down === null) return up ?? down ?? 0;
    return Math.abs(up - down) < 0.01 * Math.abs(up) ? (up + down) / 2 : up;
  };
  const ofTanks = layout.tanks.flatMap((tank, place) => {
    const held = heldBy(layout, tank);
    if (held.shape === null || held.water === null) return [];
    const name = held.shape.name;
    return tankDimensions.flatMap((dimension): Sensitivity[] => {
      const nowMm = dimensionMm(layout, place, dimension);
      if (nowMm === null) return [];
      const mlPerMm = slope((changeMm) => withDimension(layout, place, dimension, nowMm + changeMm));
      return [{ dimension: `${name}: ${dimensionNames[dimension]}`, mlPerMm }];
    });
  });
  const { buildUp } = layout;
  const ofSpace: readonly (readonly [string, (changeMm: number) => Layout])[] = [
    [
      "loading gauge, whole width",
      (mm) => withBuildUp(layout, { gaugeMm: buildUp.gaugeMm === null ? null : buildUp.gaugeMm + mm }),
    ],
    ["clearance to the cleading", (mm) => withBuildUp(layout, { clearanceMm: buildUp.clearanceMm + mm })],
    ["lagging", (mm) => withBuildUp(layout, { laggingMm: buildUp.laggingMm + mm })],
    ["cleading", (mm) => withBuildUp(layout, { cleadingMm: buildUp.cleadingMm + mm })],
    ["bands", (mm) => withBuildUp(layout, { bandMm: buildUp.bandMm + mm })],
    ["platework outside the tanks", (mm) => withBuildUp(layout, { plateworkMm: buildUp.plateworkMm + mm })],
  ];
  return [...ofTanks, ...ofSpace.map(([dimension, at]) => ({ dimension, mlPerMm: slope(at) }))]
    .filter(({ mlPerMm }) => Math.abs(mlPerMm) > 1e-6)
    .sort((a, b) => b.mlPerMm - a.mlPerMm);
}
