import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { LeakSide } from "../simulator/leaks.ts";
import type { EngineNature, EnginePlan } from "../simulator/nature.ts";
import type { InstrumentSet } from "../simulator/plan.ts";

/**
 * Tansy, an invented engine: a small spirit-fired well tank for 45 mm track, one flue, two inside-admission
 * cylinders, an axle pump with by-pass and a hand pump. Nothing here is a record of a real engine.
 */
export const locomotive: Locomotive = {
  id: "tansy",
  name: "Tansy",
  gaugeMm: 45,
  workingPressureBarG: 3,
  boiler: {
    shape: {
      kind: "horizontal",
      innerDiameterMm: 48,
      innerLengthMm: 165,
      tubes: [{ outerDiameterMm: 20, count: 1, centreHeightMm: 16 }],
    },
    glassZeroMm: 28,
    lowestLevelMm: 2,
    highestLevelMm: 14,
    outerDiameterMm: 51,
    metalMassG: 640,
    metal: "copper",
  },
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 24.6, densityGPerMl: 0.81, tankMl: 100 },
  cylinders: {
    count: 2,
    boreMm: 13.5,
    strokeMm: 15,
    rodMm: 3,
    cutoff: 0.75,
    clearance: 0.08,
    doubleActing: true,
  },
  drivingWheelMm: 44,
  axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
  handPump: { mlPerStroke: 1 },
  waterTankMl: 240,
  fittings: [
    {
      id: "right-gland",
      name: "Right piston gland",
      kind: "gland",
      packing: "graphite yarn, 1.5 mm",
      limitGPerMin: 0.5,
      access: ["right slide bars"],
    },
    {
      id: "left-gland",
      name: "Left piston gland",
      kind: "gland",
      packing: "graphite yarn, 1.5 mm",
      limitGPerMin: 0.5,
      access: ["left slide bars"],
    },
    {
      id: "regulator-gland",
      name: "Regulator gland",
      kind: "gland",
      packing: "PTFE cord",
      limitGPerMin: 0.3,
      access: ["cab roof"],
    },
    {
      id: "regulator",
      name: "Regulator",
      kind: "regulator",
      limitGPerMin: 0.4,
      access: ["cab roof", "dome"],
    },
    {
      id: "feed-clack",
      name: "Feed clack",
      kind: "clack",
      limitGPerMin: 0.4,
      access: ["left tank filler", "feed pipe"],
    },
    { id: "safety-valve", name: "Safety valve", kind: "safety-valve", limitGPerMin: 0.4, access: ["dome"] },
    {
      id: "glass-top",
      name: "Top nut of the gauge glass",
      kind: "gauge-glass",
      packing: "silicone rings",
      limitGPerMin: 0.2,
      access: ["cab roof"],
    },
    {
      id: "turret",
      name: "Turret joint",
      kind: "joint",
      packing: "copper washer",
      limitGPerMin: 0.2,
      access: ["cab roof"],
    },
  ],
};

/** The owner's instruments, as declared with the engine. */
export const instruments: InstrumentSet = {
  pressureReadingBar: 0.06,
  pressureDivisionBar: 0.1,
  pressureBiasBar: 0.06,
  levelReadingMm: 0.6,
  levelDivisionMm: 0.5,
  feedRelative: 0.02,
  massReadingG: 0.04,
  massDivisionG: 0.01,
  volumeReadingMl: 0.8,
  volumeDivisionMl: 1,
};

const nature: Omit<EngineNature, "leaks"> = {
  lossW: 41,
  fire: {
    burnGPerMin: 2.2,
    transfer: 0.31,
    wander: { relativeSd: 0.08, correlationS: 90 },
    lowest: 1,
    idleDraught: 1,
    tankCooling: 0,
    diesS: 4,
  },
  motion: {
    speedMPerS: 0.62,
    engineMassKg: 2.9,
    resistanceRatio: 0.02,
    frictionBar: 0.38,
    excess: 1.3,
    wander: { relativeSd: 0.12, correlationS: 90 },
    lapSd: 0.05,
    handEveryS: 150,
    handSd: 0.08,
    cylindersJPerK: 85,
    gradient: 0.004,
  },
  safetyValve: { liftBarG: 3.1, reseatBarG: 2.75, capacityGPerMin: 14 },
  blowerGPerMin: 0,
  pumpEfficiency: 0.76,
  glass: { fromMm: 0, toMm: 19 },
};

const sides: Record<string, LeakSide> = {
  "right-gland": "chest",
  "left-gland": "chest",
  "regulator-gland": "steam",
  regulator: "steam",
  "feed-clack": "water",
  "safety-valve": "steam",
  "glass-top": "steam",
  turret: "steam",
};

/** What the fittings pass on the day, g/min at working pressure; `excess` is the cylinders' own waste. */
export interface Condition {
  leaks: Readonly<Record<string, number>>;
  excess: number;
}

/** Tansy in the condition of the day. A gauge glass that is broken is blanked off: none to read. */
export function tansy(condition: Condition, withGlass: boolean): EnginePlan {
  return {
    locomotive,
    nature: {
      ...nature,
      motion: { ...nature.motion, excess: condition.excess },
      glass: withGlass ? nature.glass : null,
      leaks: Object.entries(condition.leaks).map(([fitting, gPerMinAtWorkingPressure]) => ({
        fitting,
        side: sides[fitting] ?? "steam",
        gPerMinAtWorkingPressure,
      })),
    },
  };
}
