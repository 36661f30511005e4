import type { Day } from "./day.ts";
import { oneFeeding, pumpM3PerRevolution } from "./feed.ts";
import type { Happening } from "./ledger.ts";
import type { SteamingPlan } from "./plan.ts";
import type { Random } from "./random.ts";

/** Bottle, hand pump and axle pump as they work: what goes in at each step. */
export interface Feeder {
  readonly busy: boolean;
  /** as written for bottle and pump, as moved for the axle pump, ml */
  readonly fedMl: number;
  begin(atS: number): void;
  /** kg from bottle or hand pump */
  step(dtS: number, atS: number): number;
  /** kg from the axle pump for revolutions with the by-pass shut */
  pump(revolutions: number): number;
  /** a feeding that the end cuts short is written as far as it went */
  end(atS: number): void;
}

type Feed = Extract<Happening, { kind: "feed" }>;

export function feederOf(
  plan: SteamingPlan,
  day: Day,
  say: (happening: Happening) => void,
  random: Random,
): Feeder {
  const habits = plan.driver.feed;
  const kgPerMl = day.feedWater.kgPerM3 * 1e-6;
  const { axlePump, handPump } = day.locomotive;
  const mlPerRev =
    axlePump === undefined ? 0 : pumpM3PerRevolution(axlePump, plan.engine.nature.pumpEfficiency) * 1e6;
  let current: { leftKg: number; wholeKg: number; feed: Feed } | null = null;
  let fedMl = 0;

  return {
    get busy() {
      return current !== null;
    },
    get fedMl() {
      return fedMl;
    },
    begin: (atS) => {
      if (habits === null || habits.by === "axle-pump") return;
      const { writtenMl, trueMl, strokes } = oneFeeding(
        habits,
        handPump?.mlPerStroke ?? Number.NaN,
        day.faults,
        random,
      );
      fedMl += writtenMl;
      const wholeKg = trueMl * kgPerMl;
      const feed: Feed = { kind: "feed", fromS: atS, atS, by: habits.by, ml: writtenMl, strokes };
      current = { leftKg: wholeKg, wholeKg, feed };
    },
    step: (dtS, atS) => {
      if (current === null || habits === null) return 0;
      const kg = Math.min(current.leftKg, habits.mlPerS * kgPerMl * dtS);
      current.leftKg -= kg;
      if (current.leftKg <= 0) {
        say({ ...current.feed, atS: atS + dtS });
        current = null;
      }
      return kg;
    },
    pump: (revolutions) => {
      fedMl += revolutions * mlPerRev;
      return revolutions * mlPerRev * kgPerMl;
    },
    end: (atS) => {
      if (current === null) return;
      const share = 1 - current.leftKg / current.wholeKg;
      const { feed } = current;
      const strokes = feed.strokes === null ? null : Math.round(feed.strokes * share);
      say({ ...feed, atS, ml: feed.ml * share, strokes });
      current = null;
    },
  };
}
