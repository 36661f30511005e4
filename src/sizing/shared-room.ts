import { type BuildUp, cleadingRadiusMm } from "./build-up.ts";
import { inMm } from "./drawing.ts";
import { heldBy, type Layout } from "./layout.ts";
import { outsideOfInnerMm } from "./tank-pieces.ts";
import type { TankShape } from "./tank-shape.ts";
import { floorMm } from "./tank-water.ts";

type Warning = { code: string; text: string };

/** Nearer to the engine's middle than this part of the cleading's radius a tank comes among the frames (our choice). */
const FRAMES_WITHIN = 0.5;
const HAIR_MM = 1e-9;

/** Where tanks that can be made may want room that others have, or the engine itself: a plan does not say how far forward each stands. */
export function sharedRoom(layout: Layout): Warning[] {
  const shapes = layout.tanks.flatMap((tank) => {
    const { shape, water } = heldBy(layout, tank);
    return shape === null || water === null ? [] : [shape];
  });
  const pairs = shapes.flatMap((one, i) => shapes.slice(i + 1).map((other) => [one, other] as const));
  return [
    ...pairs.filter(([one, other]) => wantOneRoom(one, other)).map(([one, other]) => inOneRoom(one, other)),
    ...shapes.flatMap((shape) => [
      ...amongFrames(shape, layout.buildUp),
      ...pipeThroughBoiler(shape, layout.buildUp),
    ]),
  ];
}

/** Of one kind, placed, and at heights that overlap. A well beside side tanks is checked where it stands. */
function wantOneRoom(one: TankShape, other: TankShape): boolean {
  const low = Math.max(one.undersideMm, other.undersideMm);
  const high = Math.min(one.undersideMm + one.heightMm, other.undersideMm + other.heightMm);
  return one.kind === other.kind && one.isPlaced && other.isPlaced && high > low + HAIR_MM;
}

const inOneRoom = (one: TankShape, other: TankShape): Warning => ({
  code: "same-room",
  text: `The ${one.name} and the ${other.name} stand at the same height: there is room for both only one behind the other, ${inMm(one.lengthMm + other.lengthMm)} mm long together, and that is not checked.`,
});

/** A straight pipe at the floor goes through the boiler unless all of it lies below the cleading, or above. */
function pipeThroughBoiler(shape: TankShape, up: BuildUp): Warning[] {
  const { balancePipeMm } = shape;
  if (balancePipeMm === null || up.boilerRadiusMm === null) return [];
  const [lowMm, roundMm] = [floorMm(shape), cleadingRadiusMm(up)];
  if (lowMm >= roundMm || lowMm + balancePipeMm <= -roundMm) return [];
  return [
    {
      code: "balance-pipe-through-boiler",
      text: `The balance pipe of the ${shape.name}, straight from floor to floor, would go through the boiler: it has to be led under it, is longer than the cutting list says, and holds more.`,
    },
  ];
}

/** A face that the boiler no longer keeps out, under it or above; of a curved one the owner may say how near it comes. */
function amongFrames(shape: TankShape, up: BuildUp): Warning[] {
  if (shape.kind !== "side-pair" || up.boilerRadiusMm === null) return [];
  const [lowMm, highMm] = [shape.undersideMm, shape.undersideMm + shape.heightMm];
  const nearestMm = Math.min(outsideOfInnerMm(shape, lowMm), outsideOfInnerMm(shape, highMm));
  const within = FRAMES_WITHIN * cleadingRadiusMm(up);
  const isGranted = shape.curvedOnMm !== null && Math.abs(nearestMm - within) < HAIR_MM;
  if (nearestMm >= within && !isGranted) return [];
  if (shape.curvedOnMm !== null && !isGranted) return [];
  if (-lowMm < highMm) {
    return [
      {
        code: "over-the-boiler",
        text: `The ${shape.name} come within ${inMm(nearestMm)} mm of the engine's middle, over the boiler, where chimney, dome and safety valve are: nothing of these is checked.`,
      },
    ];
  }
  return [
    {
      code: "among-the-frames",
      text: `The ${shape.name} come within ${inMm(nearestMm)} mm of the engine's middle, under the boiler, where frames, wheels and motion are: nothing of these is checked.`,
    },
  ];
}
