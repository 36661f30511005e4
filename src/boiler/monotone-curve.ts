export interface CurvePoint {
  x: number;
  y: number;
}

export interface Curve {
  at(x: number): number;
  slopeAt(x: number): number;
}

/**
 * Smooth curve through points of rising x that rises and falls only where they do (piecewise cubic Hermite,
 * slopes of Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300; three-point ends).
 * Beyond its ends it goes on straight at the end slope. One point: constant.
 */
export function monotoneCurve(points: readonly CurvePoint[]): Curve {
  const [first] = points;
  if (first === undefined) throw new RangeError("monotoneCurve: 0 points, wanted 1 or more");
  const pieces = piecesOf(points);
  const [firstPiece] = pieces;
  const lastPiece = pieces.at(-1);
  if (firstPiece === undefined || lastPiece === undefined) return { at: () => first.y, slopeAt: () => 0 };

  const pieceAt = (x: number): Piece => {
    let low = 0;
    let high = pieces.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((pieces[middle]?.x ?? Number.POSITIVE_INFINITY) <= x) low = middle;
      else high = middle - 1;
    }
    return pieces[low] ?? firstPiece;
  };

  return {
    at(x) {
      const piece = pieceAt(x);
      const s = x - piece.x;
      if (s < 0) return piece.y + piece.startSlope * s;
      if (s > piece.width) return piece.endY + piece.endSlope * (s - piece.width);
      return piece.y + s * (piece.startSlope + s * (piece.quadratic + s * piece.cubic));
    },
    slopeAt(x) {
      const piece = pieceAt(x);
      const s = x - piece.x;
      if (s < 0) return piece.startSlope;
      if (s > piece.width) return piece.endSlope;
      return piece.startSlope + s * (2 * piece.quadratic + 3 * s * piece.cubic);
    },
  };
}

interface Piece {
  x: number;
  width: number;
  y: number;
  endY: number;
  startSlope: number;
  endSlope: number;
  quadratic: number;
  cubic: number;
}

function piecesOf(points: readonly CurvePoint[]): Piece[] {
  const chords = points.slice(1).map((end, i) => {
    const start = points[i] ?? end;
    return { start, end, width: end.x - start.x, slope: (end.y - start.y) / (end.x - start.x) };
  });
  const slopes = points.map((_, i) => {
    const [before, after] = [chords[i - 1], chords[i]];
    if (before !== undefined && after !== undefined) return middleSlope(before, after);
    if (after !== undefined) return endSlope(after, chords[1]);
    return before === undefined ? 0 : endSlope(before, chords.at(-2));
  });
  return chords.map(({ start, end, width, slope }, i) => {
    const startSlope = slopes[i] ?? slope;
    const finish = slopes[i + 1] ?? slope;
    return {
      x: start.x,
      width,
      y: start.y,
      endY: end.y,
      startSlope,
      endSlope: finish,
      quadratic: (3 * slope - 2 * startSlope - finish) / width,
      cubic: (startSlope + finish - 2 * slope) / width ** 2,
    };
  });
}

interface Chord {
  width: number;
  slope: number;
}

/** Weighted harmonic mean of the neighbouring slopes; level where they differ in sign. */
function middleSlope(before: Chord, after: Chord): number {
  if (before.slope * after.slope <= 0) return 0;
  const weightBefore = 2 * after.width + before.width;
  const weightAfter = after.width + 2 * before.width;
  return (weightBefore + weightAfter) / (weightBefore / before.slope + weightAfter / after.slope);
}

/**
 * Slope of the parabola through the last three points, kept between half and twice the last piece's own: readings in
 * error must not send the straight line beyond the end flat or steep.
 */
function endSlope(end: Chord, next: Chord | undefined): number {
  if (next === undefined) return end.slope;
  const slope =
    ((2 * end.width + next.width) * end.slope - end.width * next.slope) / (end.width + next.width);
  if (end.slope === 0) return 0;
  return end.slope * Math.min(2, Math.max(0.5, slope / end.slope));
}
