/** Across the tank at one height: where its inside begins and ends, mm from the engine's centre line (a box: from 0). */
export interface Section {
  /** inside of the outer face */
  outerMm: number;
  innerMm(heightMm: number): number;
  /** area of the inside between two heights, mm2, exact */
  areaMm2(fromMm: number, toMm: number): number;
  /** narrowest inside between two heights, mm; 0 or less where there is none */
  narrowestMm(fromMm: number, toMm: number): number;
}

/** Upright faces on both sides. */
export function flatSection(innerMm: number, outerMm: number): Section {
  const widthMm = outerMm - innerMm;
  return {
    outerMm,
    innerMm: () => innerMm,
    areaMm2: (fromMm, toMm) => widthMm * Math.max(0, toMm - fromMm),
    narrowestMm: () => widthMm,
  };
}

/**
 * Inner face on an arc about the boiler's centre (height 0), as far as it stays `nearestMm` from the engine's centre
 * line, upright beyond. Area by the integral of the arc: (z sqrt(r^2 - z^2) + r^2 asin(z / r)) / 2.
 */
export function curvedSection(radiusMm: number, nearestMm: number, outerMm: number): Section {
  const near = nearestMm;
  const arcEndMm = Math.sqrt(Math.max(0, radiusMm ** 2 - near ** 2));
  const onArc = (z: number) => Math.sqrt(Math.max(0, radiusMm ** 2 - z ** 2));
  const innerMm = (z: number) => (Math.abs(z) < arcEndMm ? onArc(z) : near);
  const primitive = (z: number) => (z * onArc(z) + radiusMm ** 2 * Math.asin(z / radiusMm)) / 2;
  return {
    outerMm,
    innerMm,
    areaMm2: (fromMm, toMm) => {
      if (!(toMm > fromMm)) return 0;
      const [a, b] = [Math.max(fromMm, -arcEndMm), Math.min(toMm, arcEndMm)];
      const arc = b > a ? b - a : 0;
      const insideArc = arc > 0 ? primitive(b) - primitive(a) : 0;
      return outerMm * (toMm - fromMm) - insideArc - near * (toMm - fromMm - arc);
    },
    narrowestMm: (fromMm, toMm) => {
      const closestToCentre = Math.min(toMm, Math.max(fromMm, 0));
      return outerMm - innerMm(closestToCentre);
    },
  };
}
