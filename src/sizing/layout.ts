import { type BuildUp, buildUpOf, checkedMm, USUAL } from "./build-up.ts";
import { misplaced } from "./tank-place.ts";
import { kindNames, type TankShape, tankShapeOf } from "./tank-shape.ts";
import { type TankWater, tankWaterOf } from "./tank-water.ts";
import type { Tank, Tanks } from "./tanks-schema.ts";
import { scaleRatio } from "./typed-length.ts";

/** The tanks of a plan in their space; what is varied is always a copy. */
export interface Layout {
  buildUp: BuildUp;
  tanks: readonly Tank[];
  scale: number;
  usableFraction: number;
}

/** Usable part of a plain side tank's inside (practice: 0.85 to 0.90). */
export const USUAL_USABLE = 0.87;
const USUAL_SCALE = "1:32";

export function layoutOf(
  tanks: Tanks,
  usableFraction: number | undefined,
  ownDiameterMm: number | undefined,
): Layout {
  const scale = scaleRatio(tanks.scale ?? USUAL_SCALE) ?? 1 / 32;
  return {
    buildUp: buildUpOf(tanks.space, scale, ownDiameterMm),
    tanks: toldApart(tanks.water.map((tank) => inMm(tank, scale))),
    scale,
    usableFraction: usableFraction ?? USUAL_USABLE,
  };
}

const lengthKeys = new Set<string>([
  "length",
  "height",
  "width",
  "plate",
  "cornerRadius",
  "freeboard",
  "deadDepth",
  "base",
  "nearest",
  "balancePipe",
  "along",
  "up",
  "diameter",
]);

/** A tank with every length in mm, so that trying many sizes need not read words again. */
function inMm<Part extends object>(part: Part, scale: number): Part {
  const read = Object.entries(part).map(([key, value]) => {
    if (Array.isArray(value)) return [key, value.map((inner: object) => inMm(inner, scale))];
    return [key, lengthKeys.has(key) && value !== undefined ? checkedMm(value, scale) : value];
  });
  return Object.fromEntries(read) as Part;
}

/** Every tank with a name of its own: the second of a kind is the second. */
function toldApart(tanks: readonly Tank[]): Tank[] {
  const nameOf = (tank: Tank) => tank.name ?? kindNames[tank.kind];
  return tanks.map((tank, place) => {
    const name = nameOf(tank);
    const before = tanks.slice(0, place).filter((one) => nameOf(one) === name).length;
    const isAlone = before === 0 && !tanks.slice(place + 1).some((one) => nameOf(one) === name);
    return { ...tank, name: isAlone ? name : `${name} ${before + 1}` };
  });
}

export const tankName = (layout: Layout, place: number): string => {
  const tank = layout.tanks[place];
  return tank === undefined ? `tank ${place + 1}` : (tank.name ?? kindNames[tank.kind]);
};

export interface Held {
  /** null where it is not known: a measure is wanting */
  shape: TankShape | null;
  water: TankWater | null;
  /** why there is no such tank */
  why: string | null;
}

export function heldBy(layout: Layout, tank: Tank): Held {
  const shape = tankShapeOf(tank, layout.buildUp, layout.scale);
  if (typeof shape === "string") return { shape: null, water: null, why: shape };
  const water = tankWaterOf(shape, layout.usableFraction);
  if (typeof water === "string") return { shape, water: null, why: water };
  const why = misplaced(shape, layout.buildUp, shape.isPlaced ? sideTanksOf(layout) : []);
  return why === null ? { shape, water, why: null } : { shape, water: null, why };
}

function sideTanksOf(layout: Layout): TankShape[] {
  return layout.tanks.flatMap((tank) => {
    const shape = tank.kind === "side-pair" ? tankShapeOf(tank, layout.buildUp, layout.scale) : "";
    return typeof shape === "string" ? [] : [shape];
  });
}

/** The first tank that is not known and the first that cannot be made, each with the reason in words; null where there is none. */
export function troublesOf(layout: Layout): { notKnown: string | null; notMade: string | null } {
  let [notKnown, notMade]: (string | null)[] = [null, null];
  for (const [place, tank] of layout.tanks.entries()) {
    const { shape, water, why } = heldBy(layout, tank);
    const name = tankName(layout, place);
    if (shape === null) notKnown ??= `what the ${name} would hold cannot be told: ${why}`;
    else if (water === null) notMade ??= `the ${name} cannot be made so: ${why}`;
  }
  return { notKnown: notKnown ?? null, notMade: notMade ?? null };
}

/** What all tanks that can be hold for use, ml. */
export const usableMl = (layout: Layout): number =>
  layout.tanks.reduce((sum, tank) => sum + (heldBy(layout, tank).water?.usableMl ?? 0), 0);

export const tankDimensions = ["length", "height", "width", "plate", "freeboard", "deadDepth"] as const;
export type TankDimension = (typeof tankDimensions)[number];

/** A dimension of one tank as it stands, mm; null where that tank has none. */
export function dimensionMm(layout: Layout, place: number, dimension: TankDimension): number | null {
  const tank = layout.tanks[place];
  if (tank === undefined) return null;
  if (dimension === "width") return tank.kind === "side-pair" ? null : checkedMm(tank.width, layout.scale);
  const typed = tank[dimension] ?? (dimension === "plate" ? USUAL.plate : undefined);
  return typed === undefined ? null : checkedMm(typed, layout.scale);
}

export function withDimension(layout: Layout, place: number, dimension: TankDimension, mm: number): Layout {
  return {
    ...layout,
    tanks: layout.tanks.map((tank, i) => (i === place ? { ...tank, [dimension]: mm } : tank)),
  };
}

export const withBuildUp = (layout: Layout, change: Partial<BuildUp>): Layout => ({
  ...layout,
  buildUp: { ...layout.buildUp, ...change },
});
