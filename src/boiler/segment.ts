/** Area (m2) of the part of a circle below a height (m) above its lowest point; 0 below, the whole above. */
export function segmentAreaM2(radiusM: number, heightM: number): number {
  if (heightM <= 0) return 0;
  if (heightM >= 2 * radiusM) return Math.PI * radiusM * radiusM;
  // half the angle of the segment, from its sine: exact near the bottom too, where the cosine is all but 1
  const angle = 2 * Math.asin(Math.sqrt(heightM / (2 * radiusM)));
  return Math.max(0, radiusM * radiusM * (angle - Math.sin(angle) * Math.cos(angle)));
}

/** Width (m) of a circle at a height (m) above its lowest point; 0 outside it. */
export const chordM = (radiusM: number, heightM: number): number => 2 * halfChordM(radiusM, heightM);

const halfChordM = (radiusM: number, heightM: number): number =>
  heightM <= 0 || heightM >= 2 * radiusM ? 0 : Math.sqrt(heightM * (2 * radiusM - heightM));
