import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { absent, type Figure, isMeasured, type Measured } from "../../quantity/measured.ts";
import { ratio } from "../ratio.ts";
import type { ReadingErrors } from "../state/instruments.ts";
import type { Phase, Stretch } from "../state/phases.ts";
import { ALIKE_WITHIN, endingOfBurner, endingOfGrate, leftAsFound } from "./ending.ts";
import { asHeatGoes, type Burning } from "./fuel-burning.ts";
import { burningPart, type FuelRead, fuelLog } from "./fuel-read.ts";
import { LEFT_OF_LIT, stillLit } from "./fuel-stock.ts";
import { isSolid } from "./fuel-table.ts";
import { type BurntPart, oneIn, thoughtOf, timesPart, toldByHeat } from "./left-unread.ts";

/** The same with what is thought where nobody looked at what was left, and with what the heat that came of it tells. */
export interface FuelCourse extends FuelRead {
  /** a figure over what was burnt in them */
  perBurntG(figure: Figure, windows: readonly Stretch[], unit: string): Figure;
  /** nobody looked at what was left, and what was burnt is thought of */
  leftUnread: boolean;
  /** what was put in, g; null where no figure is to be had */
  putInG: number | null;
  /** the same once the heat that came of it is known; what was read stays as it was read */
  toldByHeat(heat: HeatTells): FuelCourse;
}

export interface HeatTells {
  /** what the efficiency would be had all that was put in been burnt */
  ifAll: { value: number; uRelative: number } | null;
  /** part of the heat of the fire that came while she ran */
  underWay: Measured | null;
}

/** @param steamingId of a steaming in which the engine was weighed: fuel and water owe to the same readings of the fuel */
export function fuelCourse(
  timeline: Timeline,
  phases: readonly Phase[],
  locomotive: Locomotive,
  errors: ReadingErrors,
  steamingId: string,
): FuelCourse {
  const log = fuelLog(timeline, phases, locomotive, errors, steamingId);
  const { fire } = log;
  const none = (why: string): FuelCourse => {
    const course: FuelCourse = {
      burntG: () => absent(why),
      perBurntG: (figure) => (figure.value === null ? figure : absent(why)),
      fire,
      leftUnread: false,
      putInG: null,
      toldByHeat: () => course,
    };
    return course;
  };
  if ("why" in log) return none(log.why);
  const { litS, stock, how, burning } = log;
  const { leftUnread, putInG } = stock;
  const asFound =
    leftUnread &&
    isSolid(locomotive.fuel) &&
    leftAsFound(timeline, phases, litS, locomotive.workingPressureBarG);
  if (leftUnread && !asFound && stillLit(timeline)) return none(LEFT_OF_LIT);
  const uAlike = putInG * ALIKE_WITHIN;
  const known = log.known.map((one, i) => (asFound && i > 0 ? { ...one, uReadG: uAlike } : one));
  const ending =
    !leftUnread || asFound
      ? null
      : isSolid(locomotive.fuel)
        ? endingOfGrate(timeline, stock, burning, litS)
        : endingOfBurner(timeline, phases, fire, locomotive.fuel.kind === "spirit" ? "spirit" : "gas");
  const thought = ending === null ? null : thoughtOf(ending);
  const course = (burns: Burning, belief: BurntPart | null): FuelCourse => {
    const asReadG = (windows: readonly Stretch[]) => log.burntG(known, burns, windows);
    return {
      fire,
      leftUnread,
      putInG,
      burntG: (windows) =>
        belief === null ? asReadG(windows) : timesPart(asReadG(windows), belief, burningPart.unread),
      perBurntG: (figure, windows, unit) => {
        const ifAll = ratio(figure, asReadG(windows), unit);
        return belief === null || !isMeasured(ifAll)
          ? ifAll
          : timesPart(ifAll, oneIn(belief), burningPart.unread);
      },
      toldByHeat: ({ ifAll, underWay }) => {
        const { efficiency, factor } = how.usual;
        return course(
          underWay === null ? how : asHeatGoes(how, burning, phases, fire, underWay),
          thought === null || ifAll === null
            ? thought
            : toldByHeat(thought, ifAll.value, { efficiency, factor: Math.hypot(factor, ifAll.uRelative) }),
        );
      },
    };
  };
  return course(how, thought);
}
