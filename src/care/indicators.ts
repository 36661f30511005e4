import type { Fitting } from "../logbook/locomotive.ts";
import {
  fedUnknown,
  figure,
  levelPumping,
  runningPressure,
  shutInWater,
  standingLoss,
  type Value,
  valveAt,
} from "./indicator-values.ts";
import type { Sway } from "./like-conditions.ts";
import type { Outing } from "./outings.ts";
import { shutInFall } from "./shut-in.ts";

/** A figure of the whole engine that a fitting in need of care moves. */
export interface Indicator {
  key: string;
  /** what goes up or down: the subject of a sentence */
  name: string;
  unit: string;
  worse: "up" | "down";
  /** its usual stray from outing to outing: a part of its size, and so much in its own unit (our estimates) */
  strays: { relative: number; absolute: number };
  /** kinds of fitting it speaks of; a service of one of them starts it afresh */
  of: readonly Fitting["kind"][];
  /** the train and the track: outings are compared with those alike in it only */
  like?: (outing: Outing) => string;
  /** what else moves it: outings that differ in this are set right before they are compared */
  sways?: readonly Sway[];
  /** compared with this engine's own best so far, and not with what is usual */
  ownBest?: true;
  value: (outing: Outing) => Value | null;
}

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
    // a slow lap takes longer and costs more
    sways: [
      { by: "pressure", mean: 0.3, sd: 0.4 },
      { by: "speed", mean: -0.8, sd: 0.4 },
    ],
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
    sways: [
      { by: "pressure", mean: -0.3, sd: 0.4 },
      { by: "speed", mean: -0.3, sd: 0.4 },
    ],
    value: ({ report }) => (fedUnknown(report) ? null : figure(report.engine?.missingQuantity)),
  },
  {
    key: "shut-in-fall",
    name: "Fall when shut in",
    unit: "per 1000 s",
    worse: "up",
    strays: { relative: 0.1, absolute: 0 },
    of: ["regulator", "clack", "safety-valve"],
    value: (outing) => shutInFall(outing)?.perThousandS ?? null,
  },
  {
    key: "shut-in-shape",
    name: "Fall when shut in (first half over second)",
    unit: "1",
    worse: "up",
    strays: { relative: 0.2, absolute: 0 },
    of: ["safety-valve"],
    value: (outing) => shutInFall(outing)?.upperOverLower ?? null,
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
    name: "Heat lost standing (in air of 20 °C)",
    unit: "W",
    worse: "up",
    strays: { relative: 0.08, absolute: 0 },
    of: ["clack", "regulator", "safety-valve"],
    ownBest: true,
    value: standingLoss,
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
    name: "Lift of the safety valve",
    unit: "bar",
    worse: "down",
    strays: { relative: 0, absolute: 0.09 },
    of: ["safety-valve"],
    value: (outing) => valveAt(outing, "lift", "lifts"),
  },
  {
    key: "reseat",
    name: "Reseating of the safety valve",
    unit: "bar",
    worse: "down",
    strays: { relative: 0, absolute: 0.08 },
    of: ["safety-valve"],
    value: (outing) => valveAt(outing, "reseat", "reseats"),
  },
  {
    key: "pump-delivery",
    name: "Delivery of the axle pump a turn of the wheel",
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
    name: "Evaporation (water to fuel)",
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
