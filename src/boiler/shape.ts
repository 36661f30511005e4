import type { HorizontalShape, TableShape, VerticalShape } from "./boiler-shape.ts";
import { monotoneCurve } from "./monotone-curve.ts";
import { chordM, segmentAreaM2 } from "./segment.ts";

/** A boiler's water space by height above its lowest inside point (a table: by reading of its glass), SI. */
export interface WaterSpace {
  totalM3: number;
  /** heights between which the volume changes from 0 (or a table's first) to the whole */
  lowestM: number;
  highestM: number;
  volumeM3(heightM: number): number;
  /** dV/dh */
  surfaceM2(heightM: number): number;
}

/** Circular segment x length, less each tube's own submerged segment x length. */
export function horizontalSpace(shape: HorizontalShape): WaterSpace {
  const radiusM = shape.innerDiameterMm / 2000;
  const lengthM = shape.innerLengthMm / 1000;
  const tubes = (shape.tubes ?? []).map((tube) => ({
    radiusM: tube.outerDiameterMm / 2000,
    count: tube.count,
    lowestM: (tube.centreHeightMm - tube.outerDiameterMm / 2) / 1000,
  }));
  const volumeM3 = (heightM: number): number => {
    let areaM2 = segmentAreaM2(radiusM, heightM);
    for (const tube of tubes) areaM2 -= tube.count * segmentAreaM2(tube.radiusM, heightM - tube.lowestM);
    return areaM2 * lengthM;
  };
  const surfaceM2 = (heightM: number): number => {
    let widthM = chordM(radiusM, heightM);
    for (const tube of tubes) widthM -= tube.count * chordM(tube.radiusM, heightM - tube.lowestM);
    return widthM * lengthM;
  };
  const highestM = 2 * radiusM;
  return { totalM3: volumeM3(highestM), lowestM: 0, highestM, volumeM3, surfaceM2 };
}

/** (Shell area - tube areas) x height. */
export function verticalSpace(shape: VerticalShape): WaterSpace {
  const circleM2 = (diameterMm: number): number => (Math.PI / 4) * (diameterMm / 1000) ** 2;
  const tubesM2 = (shape.tubes ?? []).reduce(
    (sum, tube) => sum + tube.count * circleM2(tube.outerDiameterMm),
    0,
  );
  const areaM2 = circleM2(shape.innerDiameterMm) - tubesM2;
  const highestM = shape.innerHeightMm / 1000;
  return {
    totalM3: areaM2 * highestM,
    lowestM: 0,
    highestM,
    volumeM3: (heightM) => areaM2 * Math.min(highestM, Math.max(0, heightM)),
    surfaceM2: (heightM) => (heightM > 0 && heightM < highestM ? areaM2 : 0),
  };
}

/** Volumes measured at readings of the glass; beyond the ends at the end slope, never below 0 or above the whole. */
export function tableSpace(shape: TableShape): WaterSpace {
  const points = shape.points.map((point) => ({ x: point.levelMm / 1000, y: point.waterMl / 1e6 }));
  const curve = monotoneCurve(points);
  const totalM3 = shape.totalMl / 1e6;
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined)
    throw new RangeError("tableSpace: 0 points, wanted 1 or more");
  const [startSlope, endSlope] = [curve.slopeAt(first.x), curve.slopeAt(last.x)];
  const lowestM = startSlope > 0 ? first.x - first.y / startSlope : first.x;
  const highestM = endSlope > 0 ? last.x + (totalM3 - last.y) / endSlope : last.x;
  return {
    totalM3,
    lowestM,
    highestM,
    volumeM3: (heightM) => Math.min(totalM3, Math.max(0, curve.at(heightM))),
    surfaceM2: (heightM) => (heightM >= lowestM && heightM <= highestM ? curve.slopeAt(heightM) : 0),
  };
}
