import type { Analysis } from "../analysis/analyse.ts";
import { type Series, seriesOf } from "../analysis/series.ts";
import { absent, difference, type Figure, interval, isMeasured } from "../quantity/measured.ts";
import { type Reported, reported } from "../quantity/reported.ts";

export const alignments = ["lit", "first-steam", "first-lap"] as const;
export type Alignment = (typeof alignments)[number];

/** A figure that runs are compared by. */
export interface ComparedFigure {
  key: string;
  name: string;
  unit: string;
}

export interface ComparedRun {
  steamingId: string;
  locomotiveId: string;
  title: string;
  startedAt: string;
  /** moment of this run's own log that the overlay takes as zero; null where the run has no such moment */
  zeroS: number | null;
  /** times counted from zeroS */
  series: Pick<Series, "pressure" | "level" | "waterDrawn" | "laps"> | null;
  figures: Record<string, Reported>;
}

export interface Difference {
  key: string;
  a: string;
  b: string;
  /** b less a; errors that both runs share cancel */
  difference: Reported;
  /** whether the difference stands out of its own 95 % interval; null where there is no difference to be had */
  toldApart: boolean | null;
  words: string;
}

export interface Comparison {
  alignBy: Alignment;
  runs: ComparedRun[];
  figures: ComparedFigure[];
  /** each run against the first */
  differences: Difference[];
}

interface Compared extends ComparedFigure {
  of(run: Analysis): Figure;
}

const notRecorded = absent("not recorded in this run");

const compared: readonly Compared[] = [
  {
    key: "steamingRate",
    name: "Water a minute, running",
    unit: "g",
    of: (run) => run.perMinuteRunning?.water ?? notRecorded,
  },
  { key: "waterPerLap", name: "Water a lap", unit: "g", of: (run) => run.perLap?.water ?? notRecorded },
  { key: "fuelPerLap", name: "Fuel a lap", unit: "g", of: (run) => run.perLap?.fuel ?? notRecorded },
  { key: "waterPer100m", name: "Water for 100 m", unit: "g", of: (run) => run.per100m?.water ?? notRecorded },
  {
    key: "efficiency",
    name: "Efficiency of the boiler",
    unit: "1",
    of: (run) => run.heat?.efficiency ?? notRecorded,
  },
  {
    key: "evaporationRatio",
    name: "Evaporation, water to fuel",
    unit: "g/g",
    of: (run) => run.heat?.evaporationRatio ?? notRecorded,
  },
  {
    key: "equivalentEvaporation",
    name: "Evaporation from and at 100 °C",
    unit: "g/g",
    of: (run) => run.heat?.equivalentEvaporation ?? notRecorded,
  },
  {
    key: "raisingPower",
    name: "Power while raising steam",
    unit: "W",
    of: (run) => run.raising?.power ?? notRecorded,
  },
  {
    key: "waterDrawn",
    name: "Water drawn in all",
    unit: "g",
    of: (run) => run.totals?.waterDrawn ?? notRecorded,
  },
  {
    key: "fuelBurnt",
    name: "Fuel burnt in all",
    unit: "g",
    of: (run) => run.totals?.fuelBurnt ?? notRecorded,
  },
];

/** Runs beside each other: curves on one clock, figures, and each run's difference from the first. */
export function compareRuns(runs: readonly Analysis[], alignBy: Alignment): Comparison {
  const [first, ...others] = runs;
  return {
    alignBy,
    runs: runs.map((run) => comparedRun(run, alignBy)),
    figures: compared.map(({ key, name, unit }) => ({ key, name, unit })),
    differences:
      first === undefined
        ? []
        : others.flatMap((other) => compared.map((figure) => differenceBetween(figure, first, other))),
  };
}

function comparedRun(run: Analysis, alignBy: Alignment): ComparedRun {
  const { steaming } = run.sources;
  const zeroS = zeroOf(run, alignBy);
  return {
    steamingId: steaming.id,
    locomotiveId: steaming.locomotiveId,
    title: steaming.title ?? steaming.purpose,
    startedAt: steaming.startedAt,
    zeroS,
    series: zeroS === null ? null : shifted(seriesOf(run), zeroS),
    figures: Object.fromEntries(compared.map((figure) => [figure.key, reported(figure.of(run))])),
  };
}

function zeroOf(run: Analysis, alignBy: Alignment): number | null {
  const { timeline, pressure } = run.sources;
  switch (alignBy) {
    case "lit":
      return timeline.of("fire").find((entry) => entry.state === "lit")?.atS ?? null;
    case "first-steam":
      return pressure.firstSteamS;
    case "first-lap":
      return timeline.of("lap")[0]?.atS ?? null;
  }
}

function shifted(series: Series, zeroS: number): ComparedRun["series"] {
  const moved = (points: readonly [number, number][]) =>
    points.map(([atS, value]): [number, number] => [atS - zeroS, value]);
  return {
    pressure: { unit: "bar", points: moved(series.pressure.points) },
    level: { unit: "mm", points: moved(series.level.points) },
    laps: { unit: "1", points: moved(series.laps.points) },
    waterDrawn: {
      unit: "g",
      points: series.waterDrawn.points.map(([atS, value, low, high]) => [atS - zeroS, value, low, high]),
    },
  };
}

function differenceBetween(figure: Compared, first: Analysis, other: Analysis): Difference {
  const head = { key: figure.key, a: first.sources.steaming.id, b: other.sources.steaming.id };
  const a = figure.of(first);
  const b = figure.of(other);
  const missing = !isMeasured(a) ? a : !isMeasured(b) ? b : null;
  if (!isMeasured(a) || !isMeasured(b)) {
    return {
      ...head,
      difference: reported(missing ?? notRecorded),
      toldApart: null,
      words: "cannot be compared",
    };
  }
  const between = difference(b, a);
  const [low, high] = interval(between);
  const toldApart = low > 0 || high < 0;
  return {
    ...head,
    difference: reported(between),
    toldApart,
    words: toldApart ? `told apart: ${between.value > 0 ? "more" : "less"}` : "not told apart",
  };
}
