import type { Curves, PhaseName } from "./ledger.ts";

export interface TruePhase {
  name: PhaseName;
  fromS: number;
  toS: number;
  waterDrawnG: number;
  meanRateGPerMin: number;
  /** whole laps completed in it */
  laps: number;
  meanPressureBarG: number;
}

/** What the heat did between two times, by the contract's definition of efficiency. */
export interface TrueHeat {
  fromS: number;
  toS: number;
  fuelBurntG: number;
  fuelHeatJ: number;
  /** rise of stored energy + heat carried off by what was drawn - heat brought by feed */
  usefulJ: number;
  efficiency: number;
}

/** What really happened, from the simulator's own books. */
export interface Truth {
  seed: number;
  endS: number;
  /** as the driver did it */
  phases: TruePhase[];
  /** between the marks as they were written; empty where none were */
  markedPhases: TruePhase[];
  curves: Curves;
  lapTimesS: number[];
  raising: {
    litAtS: number;
    firstSteamAtS: number | null;
    workingPressureAtS: number | null;
    /** working pressure reached, or else the highest */
    toS: number;
    /** mean rise of stored energy from lit till then */
    powerW: number;
  };
  heat: TrueHeat;
  lossAtWorkingPressureW: number;
  /** all fittings that leak with everything shut, at working pressure */
  shutInLeakGPerMin: number;
  leaks: { fitting: string; side: "steam" | "water" | "chest"; gPerMinAtWorkingPressure: number }[];
  /** each drip caught: the truth of it, carried to working pressure from the mean boiler pressure */
  drips: { fitting: string; atS: number; g: number; gPerMinAtWorkingPressure: number }[];
  pump: { mlPerRevolution: number; volumetricEfficiency: number; revolutions: number } | null;
  safetyValve: {
    liftBarG: number;
    reseatBarG: number;
    lifts: number;
    highestBarG: number;
    rise: number;
  };
  engine: {
    /** mean over all revolutions, at the pressure in the steam chest */
    dryDemandGPerRev: number;
    drawnG: number;
    /** (drawn by the engine - dry demand) / drawn by the engine */
    missingQuantity: number;
    workJ: number;
    revolutions: number;
  } | null;
  runningS: number;
  /** when the glass first stood at the lowest level to work at; null if it never did */
  lowestLevelAtS: number | null;
  /** water and steam above what the boiler holds with the glass at its lowest level, at the last entry, g */
  aboveLowestG: number;
  /** errors that all readings of the day shared */
  feedScale: number;
  dialBiasBar: number;
  /** of each logger that has a sender of its own, by channel */
  loggerBias?: { pressureBarG?: number; levelMm?: number; massG?: number };
  /** what the books do not close by, as a share of all that went through them */
  residuals: { mass: number; energy: number };
}
