import type { DriverHabits, ObserverHabits, Stage, SteamingPlan } from "../simulator/plan.ts";
import type { Condition } from "./tansy.ts";
import { instruments, tansy } from "./tansy.ts";

/** One day of the invented season: what differs from a usual day. */
export interface Outing {
  date: string;
  /** hour of lighting up, local time in summer (+01:00) */
  time: string;
  title: string;
  purpose: SteamingPlan["purpose"];
  notes?: string;
  ambientC: number;
  feedC: number;
  atmosphereHPa: number;
  train?: SteamingPlan["train"];
  fillMl: number;
  fuelMl: number;
  stages: readonly Stage[];
  onTrack?: false;
  withoutGlass?: true;
  driver?: Partial<DriverHabits>;
  observer?: Partial<ObserverHabits>;
  seed: number;
}

export const usualDriver: DriverHabits = {
  lightsAtS: 90,
  feed: {
    by: "hand-pump",
    belowMm: 5,
    aboveMm: 12,
    each: 30,
    mlPerS: 0.9,
    mostMl: 240,
    onlyStanding: true,
  },
  stopBelow: 0.4,
  goAbove: 0.9,
  turnDownAbove: 2,
  turnUpBelow: 0,
  marginMm: 0.5,
};

export const usualObserver: ObserverHabits = {
  levelEveryS: 110,
  pressureEveryS: 80,
  holdEveryS: 60,
  unevenness: 0.35,
  missed: 0.06,
  stampSdS: 1.5,
  readsAtChanges: true,
  marksPhases: true,
  writesRegulator: true,
  writesFill: true,
  drains: false,
  writesFuelRemaining: true,
  laps: "each",
  forgottenLaps: 0.02,
  writesValve: true,
  writesPumpFeed: true,
  writesBypassOpen: true,
  weighs: false,
  drips: [
    { fitting: "right-gland", overS: 120 },
    { fitting: "left-gland", overS: 120 },
    { fitting: "feed-clack", overS: 120 },
    { fitting: "glass-top", overS: 120 },
  ],
  looksAt: ["regulator-gland", "safety-valve", "turret", "glass-top", "right-gland"],
  traces: [],
};

export function planOf(outing: Outing, condition: Condition): SteamingPlan {
  const withGlass = outing.withoutGlass !== true;
  return {
    id: `tansy-${outing.date}`,
    title: outing.title,
    ...(outing.notes === undefined ? {} : { notes: outing.notes }),
    purpose: outing.purpose,
    startedAt: `${outing.date}T${outing.time}:00+01:00`,
    engine: tansy(condition, withGlass),
    instruments,
    ambientC: outing.ambientC,
    feedC: outing.feedC,
    atmosphereHPa: outing.atmosphereHPa,
    dryness: 1,
    track:
      outing.onTrack === false ? null : { lapM: 22.4, place: "Lower Orchard (an invented garden railway)" },
    train: outing.train ?? null,
    fillMl: outing.fillMl,
    fuel: { by: "ml", first: outing.fuelMl, portions: null },
    stages: outing.stages,
    driver: { ...usualDriver, ...outing.driver },
    observer: { ...usualObserver, ...outing.observer },
  };
}
