import type { Figure, Measured } from "../quantity/measured.ts";
import type { Reported } from "../quantity/reported.ts";

/** How the length of a run is planned. */
export const planKinds = ["laps", "minutes", "distanceM"] as const;
export type PlanKind = (typeof planKinds)[number];

export interface PerUnit {
  /** g for one lap, minute or metre while running */
  water: Figure;
  fuel: Figure;
  /** how many of them this run was; null where it is not known */
  amount: number | null;
}

/** What may feed a boiler in steam. The first two can do so while she stands, and all but the last draw on a tank. */
export const feeders = ["hand-pump", "injector", "axle-pump", "bottle"] as const;

/** What sizing needs of one analysed steaming; plain data, so that a page can reckon with it. */
export interface RunFigures {
  steamingId: string;
  title: string;
  startedAt: string;
  trainMassKg: number | null;
  /** length of a lap, m, where the track is recorded */
  lapM?: number | undefined;
  per: Record<PlanKind, PerUnit>;
  /** fuel burnt while not running: raising steam, standing, cooling, g */
  otherFuel: Figure;
  metresPerMinute: number | null;
  /** delivered by the axle pump, ml a revolution, where the run tells it */
  pumpPerRevolution: Reported;
  /** heat lost through the surface at working pressure, W, where the run tells it */
  coolingLoss: Reported;
  /** what was seen to feed her in steam: of several that which can do so best, a bottle last */
  fedInSteam?: (typeof feeders)[number] | undefined;
}

/** Error of a figure that is this run's own, and what it shares with the other runs of the engine by source. */
export function ownAndShared(figure: Measured): { own: number; shared: Map<string, number> } {
  const shared = new Map<string, number>();
  let own = 0;
  for (const part of figure.parts) {
    if (part.source === undefined) own = Math.hypot(own, part.u);
    else shared.set(part.source, (shared.get(part.source) ?? 0) + part.u);
  }
  return { own, shared };
}
