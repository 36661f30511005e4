import { meanOf } from "../../statistics/mean-of.ts";
import type { Read } from "./valve-course.ts";
import type { Moment } from "./valve-moment.ts";

/** Readings this near a moment of the valve tell of it, s; and so many to either side of each. */
export const NEAR_S = 150;
const EITHER_SIDE = 8;
const MOST_READINGS = 80;
/** Samples of a logger count together over so long: a moment is not written down nearer, s. */
const TOGETHER_S = 3;

/** The nearest readings to either side of each moment, nearer ones first where there are too many; in order of time. */
export function readingsNear(moments: readonly Pick<Moment, "atS">[], all: readonly Read[]): Read[] {
  const found = new Map<Read, number>();
  for (const { atS } of moments) {
    const near = all.filter((read) => Math.abs(read.atS - atS) <= NEAR_S);
    const outwards = near.filter((read) => read.atS <= atS).reverse();
    const before = together(outwards).slice(0, EITHER_SIDE);
    const after = together(near.filter((read) => read.atS > atS)).slice(0, EITHER_SIDE);
    for (const read of [...before, ...after])
      found.set(read, Math.min(found.get(read) ?? Number.POSITIVE_INFINITY, Math.abs(read.atS - atS)));
  }
  return [...found]
    .sort(([, a], [, b]) => a - b)
    .slice(0, MOST_READINGS)
    .map(([read]) => read)
    .sort((a, b) => a.atS - b.atS);
}

/** Readings closer than a moment is told, as one at their mean. */
function together(reads: readonly Read[]): Read[] {
  const groups: [Read, ...Read[]][] = [];
  for (const read of reads) {
    const last = groups.at(-1);
    if (last !== undefined && Math.abs(read.atS - last[0].atS) < TOGETHER_S) last.push(read);
    else groups.push([read]);
  }
  return groups.map((group) =>
    group.length === 1
      ? group[0]
      : { atS: meanOf(group, ({ atS }) => atS), barG: meanOf(group, ({ barG }) => barG) },
  );
}
