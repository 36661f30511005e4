import { pumpingStretches } from "../analysis/demand-effects.ts";
import type { Report } from "../analysis/report-schema.ts";
import { glassReading } from "../logbook/glass-reading.ts";
import type { Fitting } from "../logbook/locomotive.ts";
import type { Reported } from "../quantity/reported.ts";
import type { Outing } from "./outings.ts";
import { shutInFall } from "./shut-in.ts";

/** A figure of the whole engine that a fitting in need of care moves. */
export interface Indicator {
  key: string;
  name: string;
  unit: string;
  worse: "up" | "down";
  /** its usual stray from outing to outing: a part of its size, and so much in its own unit (our estimates) */
  strays: { relative: number; absolute: number };
  /** kinds of fitting it speaks of; a service of one of them starts it afresh */
  of: readonly Fitting["kind"][];
  /** outings are compared with those of like conditions only */
  like?: (outing: Outing) => string;
  value: (outing: Outing) => Value | null;
}

interface Value {
  value: number;
  u: number;
}

const figure = (reported: Reported | undefined): Value | null =>
  reported === undefined || reported.value === null ? null : { value: reported.value, u: reported.u };

const sameTrain = ({ steaming }: Outing): string =>
  `${steaming.track?.lapM ?? "?"} m, ${steaming.train?.massKg ?? 0} kg`;

/** What is taken from every steaming, as far as its report gives it. */
export const indicators: readonly Indicator[] = [
  {
    key: "water-a-lap",
    name: "Water a lap",
    unit: "g",
    worse: "up",
    strays: { relative: 0.05, absolute: 0 },
    of: ["gland"],
    like: sameTrain,
    value: ({ report }) => (fedUnknown(report) ? null : figure(report.perLap?.water)),
  },
  {
    key: "missing-quantity",
    name: "Missing quantity",
    unit: "1",
    worse: "up",
    strays: { relative: 0, absolute: 0.04 },
    of: ["gland"],
    like: sameTrain,
    value: ({ report }) => (fedUnknown(report) ? null : figure(report.engine?.missingQuantity)),
  },
  {
    key: "shut-in-fall",
    name: "Fall when shut in",
    unit: "per 1000 s",
    worse: "up",
    strays: { relative: 0.1, absolute: 0 },
    of: ["regulator", "clack", "safety-valve"],
    value: (outing) => {
      const fall = shutInFall(outing);
      return fall === null ? null : { value: fall.perThousandS, u: 0 };
    },
  },
  {
    key: "shut-in-shape",
    name: "Fall when shut in, first half over second",
    unit: "1",
    worse: "up",
    strays: { relative: 0.2, absolute: 0 },
    of: ["safety-valve"],
    value: (outing) => {
      const shape = shutInFall(outing)?.upperOverLower ?? null;
      return shape === null ? null : { value: shape, u: 0 };
    },
  },
  {
    key: "shut-in-water",
    name: "Water lost when shut in",
    unit: "g/min",
    worse: "up",
    strays: { relative: 0, absolute: 0.15 },
    of: ["clack", "regulator", "safety-valve"],
    value: ({ report }) => shutInWater(report),
  },
  {
    key: "standing-loss",
    name: "Heat lost standing",
    unit: "W",
    worse: "up",
    strays: { relative: 0.08, absolute: 0 },
    of: ["clack", "regulator", "safety-valve"],
    value: ({ report }) => figure(report.cooling?.lossAtWorkingPressure),
  },
  {
    key: "hot-hold-leak",
    name: "Leak when shut in hot",
    unit: "g/min",
    worse: "up",
    strays: { relative: 0, absolute: 0.15 },
    of: ["clack", "regulator", "safety-valve"],
    value: ({ report }) => figure(report.cooling?.leak),
  },
  {
    key: "cold-hold-leak",
    name: "Leak in the hydraulic test",
    unit: "ml/min",
    worse: "up",
    strays: { relative: 0.2, absolute: 0.02 },
    of: ["clack", "regulator", "joint", "gauge-glass"],
    value: ({ report }) => figure(report.coldHold?.leak),
  },
  {
    key: "lift",
    name: "Safety valve lifts at",
    unit: "bar",
    worse: "down",
    strays: { relative: 0, absolute: 0.09 },
    of: ["safety-valve"],
    value: ({ report, sources }) => figure(report.safetyValve?.lift) ?? atValve(sources, "lifts"),
  },
  {
    key: "reseat",
    name: "Safety valve reseats at",
    unit: "bar",
    worse: "down",
    strays: { relative: 0, absolute: 0.08 },
    of: ["safety-valve"],
    value: ({ report, sources }) => figure(report.safetyValve?.reseat) ?? atValve(sources, "reseats"),
  },
  {
    key: "pump-delivery",
    name: "Axle pump, a turn of the wheel",
    unit: "ml",
    worse: "down",
    strays: { relative: 0.1, absolute: 0 },
    of: ["pump", "clack"],
    value: ({ report }) => figure(report.pump?.perRevolution),
  },
  {
    key: "level-pumping",
    name: "Level in the glass with the by-pass shut",
    unit: "mm/min",
    worse: "down",
    strays: { relative: 0, absolute: 0.2 },
    of: ["pump"],
    like: sameTrain,
    value: levelPumping,
  },
  {
    key: "evaporation-ratio",
    name: "Evaporation, water to fuel",
    unit: "g/g",
    worse: "up",
    strays: { relative: 0.05, absolute: 0 },
    of: [],
    like: (outing) => `${sameTrain(outing)}${outing.runningH > 0 ? "" : ", standing"}`,
    value: ({ report }) => (fedUnknown(report) ? null : figure(report.heat?.evaporationRatio)),
  },
  {
    key: "running-pressure",
    name: "Mean pressure while running",
    unit: "bar",
    worse: "down",
    strays: { relative: 0.07, absolute: 0 },
    of: [],
    like: sameTrain,
    value: ({ report }) => runningPressure(report),
  },
];

/** What an axle pump fed is not known: what was drawn is no better known, and tells of no change. */
const fedUnknown = ({ pump }: Report): boolean => pump !== null && pump.perRevolution.value === null;

const LEAST_PUMPING_S = 120;

/** How fast the glass rises or falls while the axle pump feeds: straight through the readings of each such stretch. */
function levelPumping({ sources, report }: Outing): Value | null {
  const { timeline, errors } = sources;
  const fed = pumpingStretches(timeline, report.phases) ?? [];
  let [along, across] = [0, 0];
  for (const [fromS, toS] of fed) {
    const read = timeline
      .of("level")
      .filter((entry) => entry.atS >= fromS && entry.atS <= toS && glassReading(entry) === "exact");
    const [first, last] = [read[0], read.at(-1)];
    if (first === undefined || last === undefined || last.atS - first.atS < LEAST_PUMPING_S) continue;
    const meanS = read.reduce((sum, { atS }) => sum + atS, 0) / read.length;
    along += read.reduce((sum, { atS, mm }) => sum + (atS - meanS) * mm, 0);
    across += read.reduce((sum, { atS }) => sum + (atS - meanS) ** 2, 0);
  }
  return across === 0
    ? null
    : { value: (60 * along) / across, u: (60 * errors.levelReadingMm) / Math.sqrt(across) };
}

function shutInWater(report: Report): Value | null {
  const known = report.phases
    .filter(({ name, fromS, toS }) => name === "shut-in" && toS - fromS > 240)
    .map((phase) => figure(phase.steamingRate))
    .filter((value) => value !== null)
    .sort((a, b) => a.u - b.u);
  return known[0] ?? null;
}

/** Nobody reads the dial just as the valve moves: what is read about it strays by so much, bar (our estimate). */
const AT_THE_DIAL = 0.12;

function atValve({ timeline, pressure }: Outing["sources"], state: "lifts" | "reseats"): Value | null {
  const read = timeline
    .of("valve")
    .filter((entry) => entry.state === state)
    .map((entry) => pressure.atS(entry.atS))
    .filter((barG) => barG !== null);
  return read.length === 0
    ? null
    : { value: read.reduce((a, b) => a + b, 0) / read.length, u: AT_THE_DIAL / Math.sqrt(read.length) };
}

function runningPressure(report: Report): Value | null {
  const running = report.phases.filter((phase) => phase.name === "running");
  const seconds = running.reduce((sum, phase) => sum + phase.toS - phase.fromS, 0);
  if (seconds === 0 || running.some((phase) => phase.meanPressureBarG === null)) return null;
  const total = running.reduce(
    (sum, phase) => sum + (phase.meanPressureBarG ?? 0) * (phase.toS - phase.fromS),
    0,
  );
  return { value: total / seconds, u: 0.03 };
}
