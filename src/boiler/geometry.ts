import type { BoilerShape, ShapedBoiler } from "./boiler-shape.ts";
import { horizontalSpace, tableSpace, verticalSpace, type WaterSpace } from "./shape.ts";

/** Water in a boiler by reading of its glass. Volumes m3 at the level's own temperature, from 0 to totalM3. */
export interface BoilerGeometry {
  totalM3: number;
  waterM3AtLevelMm(levelMm: number): number;
  /** rise of the water's volume for one millimetre on the glass; 0 where the boiler is empty or full */
  m3PerMm(levelMm: number): number;
  /** the reading at which the boiler holds this; the end of the water space for less than none or more than all */
  levelMmAtWaterM3(waterM3: number): number;
}

/**
 * Level and volume for a boiler of any shape. The height above the lowest inside point is the reading plus
 * `glassZeroMm`; the points of a table are readings already.
 * @throws RangeError when the tubes leave no room for water
 */
export function boilerGeometry(boiler: ShapedBoiler): BoilerGeometry {
  const space = waterSpace(boiler.shape);
  if (!(space.totalM3 > 0)) {
    throw new RangeError(`boilerGeometry: the boiler holds ${space.totalM3} m3, permitted more than 0 m3`);
  }
  const zeroMm = boiler.shape.kind === "table" ? 0 : (boiler.glassZeroMm ?? 0);
  const heightM = (levelMm: number): number => (levelMm + zeroMm) / 1000;
  return {
    totalM3: space.totalM3,
    waterM3AtLevelMm: (levelMm) => space.volumeM3(heightM(levelMm)),
    m3PerMm: (levelMm) => space.surfaceM2(heightM(levelMm)) / 1000,
    levelMmAtWaterM3: (waterM3) => heightAtVolumeM(space, waterM3) * 1000 - zeroMm,
  };
}

function waterSpace(shape: BoilerShape): WaterSpace {
  switch (shape.kind) {
    case "horizontal":
      return horizontalSpace(shape);
    case "vertical":
      return verticalSpace(shape);
    case "table":
      return tableSpace(shape);
  }
}

/** Enough halvings to come from any boiler to the last digit. */
const HALVINGS = 60;

function heightAtVolumeM(space: WaterSpace, waterM3: number): number {
  let [low, high] = [space.lowestM, space.highestM];
  if (waterM3 <= space.volumeM3(low)) return low;
  if (waterM3 >= space.volumeM3(high)) return high;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (space.volumeM3(middle) < waterM3) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
