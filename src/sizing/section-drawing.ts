import { cleadingRadiusMm } from "./build-up.ts";
import { type Drawing, dimension, type Item, inMm, line, outline, type Point } from "./drawing.ts";
import { heldBy, type Layout } from "./layout.ts";
import { outsideOfInnerMm } from "./tank-pieces.ts";
import type { TankShape } from "./tank-shape.ts";
import { floorMm, roofMm } from "./tank-water.ts";

/** Room round a drawing for its dimensions, in heights of its letters. */
const MARGIN = 3;
/** Steps over a curved face, at most. */
const MOST_STEPS = 1000;

/** Across the engine: boiler, lagging, cleading, loading gauge and side tanks, seen from the front, to scale. */
export function crossSection(layout: Layout, wordsMm: number): Drawing | null {
  const marginMm = MARGIN * wordsMm;
  const sides = layout.tanks.flatMap((tank) => {
    const { shape } = heldBy(layout, tank);
    return shape !== null && shape.kind === "side-pair" && shape.widthMm > 0 && shape.heightMm > 0
      ? [shape]
      : [];
  });
  const wells = layout.tanks.flatMap((tank) => {
    const { shape } = heldBy(layout, tank);
    return shape?.isPlaced && shape.kind === "well" && shape.heightMm > 0 ? [shape] : [];
  });
  const { buildUp } = layout;
  const { boilerRadiusMm, gaugeMm } = buildUp;
  const [first] = sides;
  if (first === undefined || boilerRadiusMm === null || gaugeMm === null) return null;
  const roundMm = cleadingRadiusMm(buildUp);
  const topMm = Math.max(roundMm, ...[...sides, ...wells].map((tank) => tank.undersideMm + tank.heightMm));
  const bottomMm = Math.min(-roundMm, ...[...sides, ...wells].map((tank) => tank.undersideMm));
  const half = gaugeMm / 2;
  const circle = (stroke: "cut" | "thin" | "hidden", radiusMm: number): Item => ({
    kind: "circle",
    stroke,
    centre: [0, 0],
    radiusMm,
  });
  const upright = (x: number): Item => line("hidden", [x, -topMm - 3], [x, -bottomMm + 3]);
  const innerMm = first.section.innerMm(0) - first.plateMm;
  const items: Item[] = [
    circle("cut", boilerRadiusMm),
    circle("thin", boilerRadiusMm + buildUp.laggingMm),
    circle("thin", roundMm),
    upright(-half),
    upright(half),
    line("hidden", [0, -topMm - 3], [0, -bottomMm + 3]),
    line("hidden", [-half, 0], [half, 0]),
    ...sides.flatMap((tank) => [...sideTank(tank, 1), ...sideTank(tank, -1)]),
    ...wells.flatMap(wellAcross),
    ...dimension([-half, -bottomMm + 2.4 * wordsMm], [half, -bottomMm + 2.4 * wordsMm], wordsMm),
    ...dimension(
      [-boilerRadiusMm, -topMm - 0.8 * wordsMm],
      [boilerRadiusMm, -topMm - 0.8 * wordsMm],
      wordsMm,
    ),
    ...dimension(
      [half + 1.8 * wordsMm, -(first.undersideMm + first.heightMm)],
      [half + 1.8 * wordsMm, -first.undersideMm],
      wordsMm,
    ),
    ...dimension(
      [innerMm, -bottomMm + 1.2 * wordsMm],
      [first.section.outerMm + first.plateMm, -bottomMm + 1.2 * wordsMm],
      wordsMm,
    ),
  ];
  return {
    title: "Cross-section",
    sentence: `Cross-section: boiler ${inMm(2 * boilerRadiusMm)} mm, ${inMm(2 * roundMm)} mm over its cleading, side tanks ${inMm(first.widthMm)} mm wide and ${inMm(first.heightMm)} mm high within a loading gauge of ${inMm(gaugeMm)} mm.`,
    leftMm: -half - marginMm,
    topMm: -topMm - marginMm,
    widthMm: gaugeMm + 2 * marginMm,
    heightMm: topMm - bottomMm + 2 * marginMm,
    items,
  };
}

/** One tank across: its plates, and the water that can be drawn. */
function sideTank(tank: TankShape, hand: 1 | -1): Item[] {
  const at = (x: number, z: number): Point => [hand * x, -z];
  const inner = (from: number, to: number, faceMm: (z: number) => number): Point[] => {
    const count = Math.min(MOST_STEPS, Math.max(2, Math.ceil((to - from) / 0.5)));
    return Array.from({ length: count + 1 }, (_, i) => {
      const z = from + ((to - from) * i) / count;
      return at(faceMm(z), z);
    });
  };
  const [low, high] = [tank.undersideMm, tank.undersideMm + tank.heightMm];
  const outsideMm = tank.section.outerMm + tank.plateMm;
  const ring = (from: number, to: number, outer: number, faceMm: (z: number) => number): Point[] => [
    at(outer, to),
    at(outer, from),
    ...inner(from, to, faceMm),
  ];
  const level = (z: number): Item =>
    line("water", at(tank.section.innerMm(z), z), at(tank.section.outerMm, z));
  return [
    outline(
      "cut",
      ring(low, high, outsideMm, (z) => outsideOfInnerMm(tank, z)),
    ),
    outline("thin", ring(floorMm(tank), roofMm(tank), tank.section.outerMm, tank.section.innerMm)),
    ...(tank.freeboardMm === null ? [] : [level(roofMm(tank) - tank.freeboardMm)]),
    ...(tank.deadDepthMm === null || tank.deadDepthMm === 0 ? [] : [level(floorMm(tank) + tank.deadDepthMm)]),
  ];
}

/** A well tank across, under the boiler. */
function wellAcross({ widthMm, heightMm, undersideMm, plateMm }: TankShape): Item[] {
  const box = (inset: number): Point[] => {
    const [half, top, bottom] = [widthMm / 2 - inset, -undersideMm - heightMm + inset, -undersideMm - inset];
    return [
      [-half, top],
      [half, top],
      [half, bottom],
      [-half, bottom],
    ];
  };
  return [outline("cut", box(0)), outline("thin", box(plateMm))];
}

/** A tank from the side, to scale, with its cut-outs and levels; heights downwards from its roof. */
export function sideElevation(tank: TankShape, wordsMm: number): Drawing {
  const marginMm = MARGIN * wordsMm;
  const { lengthMm, heightMm, plateMm } = tank;
  const level = (z: number): Item => line("water", [plateMm, z], [lengthMm - plateMm, z]);
  const cuts = tank.cutOuts.map((cut): Item => {
    const x = plateMm + cut.alongMm;
    const y = heightMm - plateMm - cut.upMm - cut.heightMm;
    return outline(cut.widthMm === null ? "cut" : "hidden", [
      [x, y],
      [x + cut.lengthMm, y],
      [x + cut.lengthMm, y + cut.heightMm],
      [x, y + cut.heightMm],
    ]);
  });
  return {
    title: `${tank.name}, side`,
    sentence: `${tank.name} from the side: ${inMm(lengthMm)} mm long and ${inMm(heightMm)} mm high.`,
    leftMm: -marginMm,
    topMm: -wordsMm,
    widthMm: lengthMm + 2 * marginMm,
    heightMm: heightMm + wordsMm + marginMm,
    items: [
      outline("cut", [
        [0, 0],
        [lengthMm, 0],
        [lengthMm, heightMm],
        [0, heightMm],
      ]),
      ...cuts,
      ...(tank.freeboardMm === null ? [] : [level(plateMm + tank.freeboardMm)]),
      ...(tank.deadDepthMm === null || tank.deadDepthMm === 0
        ? []
        : [level(heightMm - plateMm - tank.deadDepthMm)]),
      ...dimension([0, heightMm + 1.6 * wordsMm], [lengthMm, heightMm + 1.6 * wordsMm], wordsMm),
      ...dimension([lengthMm + 1.8 * wordsMm, 0], [lengthMm + 1.8 * wordsMm, heightMm], wordsMm),
    ],
  };
}

/** A box tank across. */
export function boxSection(tank: TankShape, wordsMm: number): Drawing {
  const marginMm = MARGIN * wordsMm;
  const { widthMm, heightMm, plateMm } = tank;
  const box = (inset: number): Point[] => [
    [inset, inset],
    [widthMm - inset, inset],
    [widthMm - inset, heightMm - inset],
    [inset, heightMm - inset],
  ];
  return {
    title: `${tank.name}, end`,
    sentence: `${tank.name} from its end: ${inMm(widthMm)} mm wide and ${inMm(heightMm)} mm high.`,
    leftMm: -marginMm,
    topMm: -wordsMm,
    widthMm: widthMm + 2 * marginMm,
    heightMm: heightMm + wordsMm + marginMm,
    items: [
      outline("cut", box(0)),
      outline("thin", box(plateMm)),
      ...dimension([0, heightMm + 1.6 * wordsMm], [widthMm, heightMm + 1.6 * wordsMm], wordsMm),
      ...dimension([widthMm + 1.8 * wordsMm, 0], [widthMm + 1.8 * wordsMm, heightMm], wordsMm),
    ],
  };
}

/** Every drawing of the tanks that can be made, by the height of its letters in mm. */
export function drawersOf(layout: Layout): ((wordsMm: number) => Drawing)[] {
  const across = (wordsMm: number): Drawing => {
    const drawing = crossSection(layout, wordsMm);
    if (drawing === null) throw new RangeError("drawersOf: no tank stands beside the boiler");
    return drawing;
  };
  const each = layout.tanks.flatMap((tank) => {
    const { shape, water } = heldBy(layout, tank);
    if (shape === null || water === null) return [];
    const side = (wordsMm: number) => sideElevation(shape, wordsMm);
    return shape.kind === "side-pair" ? [side] : [(wordsMm: number) => boxSection(shape, wordsMm), side];
  });
  return crossSection(layout, 1) === null ? each : [across, ...each];
}
