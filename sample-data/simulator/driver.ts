import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Happening } from "./ledger.ts";
import type { Stage, SteamingPlan } from "./plan.ts";
import type { Random } from "./random.ts";

/** What the driver sees at one moment. */
export interface View {
  atS: number;
  barG: number;
  /** read only at a glance: reckoning it takes time */
  levelMm: () => number;
  fireBurning: boolean;
  bedKg: number;
  feeding: boolean;
  fedMl: number;
}

/** What the driver has set, for the loop to carry out; `wants` are done once. */
export interface Controls {
  regulatorOpen: boolean;
  bypassShut: boolean;
  blowerOn: boolean;
  burner: number;
  wants: { light: boolean; putOut: boolean; feed: boolean; fire: boolean };
  finished: boolean;
}

const GLANCE_S = 10;
const BLOWER_FROM_BAR = 0.3;

/** The driver: goes through the stages of the plan, stops at stations and for steam, feeds and fires. */
export function driverOf(
  plan: SteamingPlan,
  locomotive: Locomotive,
  say: (happening: Happening) => void,
  random: Random,
): (view: View) => Controls {
  const { driver, engine } = plan;
  const workingBarG = locomotive.workingPressureBarG;
  const controls: Controls = {
    regulatorOpen: false,
    bypassShut: false,
    blowerOn: false,
    burner: 1,
    wants: { light: false, putOut: false, feed: false, fire: false },
    finished: false,
  };
  let stageIndex = -1;
  let stageFromS = 0;
  let glanceAtS = 0;
  let levelMm = Number.POSITIVE_INFINITY;
  let stop = { nextS: Number.POSITIVE_INFINITY, untilS: -1 };
  let waitsForSteam = false;
  let portions = 0;
  let seenBurning = false;

  const setRegulator = (open: boolean, atS: number) => {
    if (open === controls.regulatorOpen) return;
    controls.regulatorOpen = open;
    say({ kind: "regulator", atS, state: open ? "open" : "shut" });
  };
  const setBypass = (shut: boolean, atS: number) => {
    if (shut === controls.bypassShut) return;
    controls.bypassShut = shut;
    say({ kind: "bypass", atS, state: shut ? "shut" : "open" });
  };
  const setBlower = (on: boolean, atS: number) => {
    if (on === controls.blowerOn || engine.nature.blowerGPerMin === 0) return;
    controls.blowerOn = on;
    say({ kind: "blower", atS, state: on ? "on" : "off" });
  };

  const canFeed = (view: View) => driver.feed !== null && view.fedMl < driver.feed.mostMl;

  const begin = (stage: Stage, view: View) => {
    stageFromS = view.atS;
    waitsForSteam = false;
    const names = { raise: "raising", stand: "standing", run: "running", "shut-in": "shut-in" } as const;
    say({ kind: "stage", atS: view.atS, name: names[stage.kind] });
    if (stage.kind === "raise") controls.wants.light = true;
    if (stage.kind === "shut-in" && view.fireBurning) controls.wants.putOut = true;
    const stops = stage.kind === "run" ? stage.stops : null;
    stop = {
      nextS: stops === null ? Number.POSITIVE_INFINITY : view.atS + nextStop(stops.everyS),
      untilS: -1,
    };
  };
  const nextStop = (everyS: number) => everyS * random.between(0.7, 1.3);

  /** nothing left to go on with: water low and none to feed, or the fire out and the pressure gone */
  const spent = (stage: Stage, view: View): boolean => {
    if (stage.kind === "raise" || stage.kind === "shut-in") return false;
    // an axle pump feeds only while the wheels turn
    const feedable = canFeed(view) && (stage.kind === "run" || driver.feed?.by !== "axle-pump");
    if (levelMm < locomotive.boiler.lowestLevelMm + driver.marginMm && !feedable) return true;
    return stage.kind === "run" && !view.fireBurning && view.barG < driver.stopBelow * workingBarG;
  };
  const over = (stage: Stage, view: View): boolean => {
    const forS = view.atS - stageFromS;
    if (stage.kind === "raise") return view.barG >= stage.untilBarG || forS >= stage.atMostS;
    return forS >= stage.forS || spent(stage, view);
  };

  const glance = (stage: Stage, view: View) => {
    glanceAtS = view.atS + GLANCE_S * random.between(0.7, 1.3);
    levelMm = view.levelMm();
    if (stage.kind === "shut-in") return;
    if (view.barG > driver.turnDownAbove * workingBarG) controls.burner = engine.nature.fire.lowest;
    if (view.barG < driver.turnUpBelow * workingBarG) controls.burner = 1;
    const { feed } = driver;
    if (feed?.by === "axle-pump") {
      if (levelMm < feed.belowMm && canFeed(view)) setBypass(true, view.atS);
      if (levelMm > feed.aboveMm || !canFeed(view)) setBypass(false, view.atS);
    }
    const firing = plan.fuel.portions;
    if (firing !== null && view.fireBurning && view.bedKg * 1000 < firing.below && portions < firing.most) {
      portions += 1;
      controls.wants.fire = true;
    }
  };

  const needsFeed = (view: View): boolean =>
    driver.feed !== null && driver.feed.by !== "axle-pump" && levelMm < driver.feed.belowMm && canFeed(view);

  const run = (stage: Extract<Stage, { kind: "run" }>, view: View) => {
    if (view.barG < driver.stopBelow * workingBarG && view.fireBurning) waitsForSteam = true;
    if (view.barG > driver.goAbove * workingBarG) waitsForSteam = false;
    if (stage.stops !== null && view.atS >= stop.nextS) {
      stop = { nextS: view.atS + nextStop(stage.stops.everyS), untilS: view.atS + stage.stops.forS };
    }
    const feedsAtRest = driver.feed?.onlyStanding === true && (view.feeding || needsFeed(view));
    setRegulator(!(waitsForSteam || view.atS < stop.untilS || feedsAtRest), view.atS);
  };

  return (view) => {
    Object.assign(controls.wants, { light: false, putOut: false, feed: false, fire: false });
    if (seenBurning && !view.fireBurning) say({ kind: "fire", atS: view.atS, state: "out", byItself: true });
    seenBurning = view.fireBurning;
    if (view.atS < driver.lightsAtS) return controls;

    let stage = plan.stages[stageIndex];
    while (stage === undefined || over(stage, view)) {
      stageIndex += 1;
      stage = plan.stages[stageIndex];
      if (stage === undefined) {
        controls.finished = true;
        setRegulator(false, view.atS);
        return controls;
      }
      if (!spent(stage, view)) begin(stage, view);
    }
    if (view.atS >= glanceAtS && !view.feeding) glance(stage, view);
    if (stage.kind === "run") run(stage, view);
    else setRegulator(false, view.atS);
    const raisingWithBlower = stage.kind === "raise" && view.barG > BLOWER_FROM_BAR;
    setBlower(raisingWithBlower || (waitsForSteam && !controls.regulatorOpen), view.atS);
    if (stage.kind !== "raise" && stage.kind !== "shut-in" && !view.feeding && needsFeed(view)) {
      controls.wants.feed = true;
      levelMm = Number.POSITIVE_INFINITY;
    }
    if (controls.wants.light) say({ kind: "fire", atS: view.atS, state: "lit", byItself: false });
    if (controls.wants.putOut) {
      say({ kind: "fire", atS: view.atS, state: "out", byItself: false });
      seenBurning = false;
    }
    return controls;
  };
}
