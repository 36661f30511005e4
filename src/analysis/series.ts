import { interval } from "../quantity/measured.ts";
import type { Analysis } from "./analyse.ts";
import { samplesOf } from "./pressure/trace-samples.ts";
import { heldCold } from "./state/held-cold.ts";

/** Curves of one steaming for a chart: [s since the start, value], water drawn with its 95 % band. */
export interface Series {
  pressure: { unit: "bar"; points: [number, number][] };
  level: { unit: "mm"; points: [number, number][] };
  waterDrawn: { unit: "g"; points: [number, number, number, number][] };
  feed: { unit: "g"; points: [number, number][] };
  fuel: { unit: "g"; points: [number, number][] };
  laps: { unit: "1"; points: [number, number][] };
}

/** Points of the water-drawn curve at most; the readings' own moments come first. */
const DRAWN_POINTS = 80;

export function seriesOf(analysis: Analysis): Series {
  const { sources, water } = analysis;
  const { timeline, pressure, fuel } = sources;
  const endS = timeline.lastS ?? 0;
  let fed = 0;
  let laps = 0;
  // where nothing tells when it burnt, nothing tells how much
  const [lit, out] = [fuel.fire[0]?.[0] ?? 0, fuel.fire.at(-1)?.[1] ?? 0];
  const burnt = evenly(lit, out, 30).flatMap((atS): [number, number][] => {
    const grams = fuel.burntG([[lit, atS]]).value;
    return grams === null ? [] : [[atS, grams]];
  });
  return {
    pressure: {
      unit: "bar",
      points: [
        ...pressure.points
          .slice(pressure.beginsThought ? 1 : 0)
          .map(([atS, barG]): [number, number] => [atS, barG]),
        ...(heldCold(sources.steaming, timeline) ? [] : timeline.of("strokes")).map(
          ({ atS, barG }): [number, number] => [atS, barG],
        ),
      ].sort((a, b) => a[0] - b[0]),
    },
    level: {
      unit: "mm",
      points: [
        ...timeline.of("level").map((entry): [number, number] => [entry.atS, entry.mm]),
        ...samplesOf(timeline, "levelMm").map(({ atS, value }): [number, number] => [atS, value]),
      ].sort((a, b) => a[0] - b[0]),
    },
    waterDrawn: { unit: "g", points: drawnCurve(analysis) },
    feed: {
      unit: "g",
      points: water.input.moves
        .filter((move) => move.isFeed)
        .flatMap((move): [number, number][] => {
          fed += move.grams;
          return [
            [move.atS, fed - move.grams],
            [move.atS, fed],
          ];
        })
        .concat(fed > 0 ? [[endS, fed]] : []),
    },
    fuel: { unit: "g", points: burnt },
    laps: {
      unit: "1",
      points: timeline.of("lap").map((lap): [number, number] => {
        laps += lap.count;
        return [lap.atS, laps];
      }),
    },
  };
}

function drawnCurve(analysis: Analysis): [number, number, number, number][] {
  const { balance } = analysis.water;
  if (balance === null) return [];
  const { fromS, toS } = balance;
  const moments = [
    ...new Set(
      [...evenly(fromS, toS, DRAWN_POINTS), ...analysis.phases.map((phase) => phase.fromS)].filter(
        (atS) => atS >= fromS && atS <= toS,
      ),
    ),
  ].sort((a, b) => a - b);
  return moments.flatMap((atS): [number, number, number, number][] => {
    if (atS === fromS) return [[atS, 0, 0, 0]];
    const drawn = balance.estimate({ unit: "g", drawn: [[atS, 1]] });
    return drawn === null ? [] : [[atS, drawn.value, ...interval(drawn)]];
  });
}

const evenly = (fromS: number, toS: number, count: number): number[] =>
  Array.from({ length: count + 1 }, (_, i) => fromS + ((toS - fromS) * i) / count);
