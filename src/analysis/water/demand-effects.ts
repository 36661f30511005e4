import type { Locomotive } from "../../logbook/locomotive.ts";
import { stretchesOf, type Timeline } from "../../logbook/timeline.ts";
import type { PressureCourse } from "../pressure/pressure-course.ts";
import type { PhaseName } from "../report-schema.ts";
import {
  common,
  type Phase,
  runningStretches,
  type Stretch,
  underWayStretches,
  without,
} from "../state/phases.ts";

/** A steady rate that holds in some stretches of time, in g/s and not known beforehand. */
export interface DemandEffect {
  name: string;
  within: readonly Stretch[];
  /** its prior standard deviation, in mean rates */
  prior: number;
  /** what it is thought to be beforehand, in mean rates; 0 if absent */
  usual?: number;
  /** an error of that size, and no unknown that the readings must fix */
  isError?: true;
  /** steady against this clock, s, and not against time */
  clock?: (atS: number) => number;
}

/**
 * Prior standard deviations, in mean rates while running. What all running shares is left quite open; that a
 * standing boiler draws more than the running engine, or one run several times another, is unlikely; while raising
 * steam and shut in, only leaks draw (our choice).
 */
const PRIOR = {
  running: 10,
  oneRun: 0.5,
  standing: 1,
  leaksOnly: 0.3,
  withoutRunning: 5,
  valve: 3,
  blower: 1,
};

/**
 * What leaks is thought to draw, in mean rates: shut in a tenth, which is the mean of leaks that are a fifth of what the surface
 * takes, give or take a factor of four, while that takes a fifth of the heat under way; while steam is raised little more than
 * nothing (our estimates).
 */
const LEAKS_USUALLY = { raising: 0.03, shutIn: 0.1 };
/** Cold cylinders condense much of the first steam: so long under way, s, with so many mean rates more (our estimate). */
const COLD_CYLINDERS = { lastsS: 90, prior: 1 };
/**
 * What she draws more or less while a pump feeds her, in mean rates: cold water pulls the pressure down. A safety
 * valve of which nothing was written blows when she is not fed (our choice, by simulated runs, where it comes to 0.09 and
 * 0.22).
 */
const WHILE_PUMPING = { valveNoted: 0.15, valveUnnoted: 0.25, asRunBesideStood: 3 };

/**
 * How the demand may differ between the time with a pump's by-pass shut and open, where its delivery was not measured:
 * only the change of the level's trend tells that, and the two cannot be told apart. Where nothing says when she ran, she ran with
 * it shut, and may have stood while it was open: then her demand may differ by times.
 */
export function demandBesidePump(
  timeline: Timeline,
  phases: readonly Phase[],
  pumping: readonly Stretch[],
): DemandEffect {
  const { valveNoted, valveUnnoted, asRunBesideStood } = WHILE_PUMPING;
  const alike = timeline.of("valve").length > 0 ? valveNoted : valveUnnoted;
  const ran = phases.some(({ name }) => name === "running");
  return { name: "while pumping", within: pumping, prior: ran ? alike : asRunBesideStood };
}

/**
 * The steady part of the demand: one rate for all running and its change in each run, one rate for each other
 * phase from first steam on (two where the fire goes out within it), and one each for what opens and shuts within phases: the safety valve blowing, the
 * blower, and a regulator shut while running; beside them what the cylinders take while they are cold.
 */
export function demandEffects(
  timeline: Timeline,
  phases: readonly Phase[],
  pressure: PressureCourse,
  leaking: (atS: number) => number,
  onlyLeaks = false,
): DemandEffect[] {
  const steamS = pressure.firstSteamS ?? Number.NEGATIVE_INFINITY;
  const running = phases.filter((phase) => phase.name === "running");
  const windowOf = (phase: Phase): Stretch => [Math.max(phase.fromS, Math.min(steamS, phase.toS)), phase.toS];
  const outs = timeline.of("fire").filter((entry) => entry.state === "out");
  const effects: DemandEffect[] = phases
    .filter((phase) => phase.name !== "running" || running.length > 1)
    .flatMap((phase) => {
      const { name } = phase;
      const [fromS, toS] = windowOf(phase);
      const thought = thoughtOf(name, running.length > 0);
      // whatever a mark says, a boiler without its fire soon draws no more than its leaks
      const outS = name === "running" ? undefined : outs.find(({ atS }) => atS > fromS && atS < toS)?.atS;
      // where she never ran steam may be used shut in, but for a hot hold; a boiler without pressure may still drip
      const pressedS = leaking(toS) - leaking(fromS);
      const leaks =
        pressedS > 0 && running.length > 0
          ? { clock: leaking }
          : pressedS > 0 && onlyLeaks
            ? // what is open beforehand stays so where she leaked for a small part of the time
              { clock: (atS: number) => (leaking(atS) * (toS - fromS)) / pressedS }
            : {};
      const own = name === "shut-in" ? leaks : {};
      return outS === undefined
        ? [{ name, within: [[fromS, toS]] as const, ...thought, ...own }]
        : [
            { name, within: [[fromS, outS]] as const, ...thought, ...own },
            { name, within: [[outS, toS]] as const, ...thought, ...leaks },
          ];
    });
  if (running.length > 0)
    effects.push({ name: "all running", within: running.map(windowOf), prior: PRIOR.running });
  const [settingOff] = underWayStretches(timeline, running);
  if (settingOff !== undefined && running.length > 0) {
    const [fromS, toS] = settingOff;
    const within = [[fromS, Math.min(toS, fromS + COLD_CYLINDERS.lastsS)]] as const;
    effects.push({ name: "cold cylinders", within, prior: COLD_CYLINDERS.prior, isError: true });
  }
  const blowing = stretchesOf(timeline, "valve", "lifts");
  const blower = stretchesOf(timeline, "blower", "on");
  if (blowing.length > 0) effects.push({ name: "safety valve", within: blowing, prior: PRIOR.valve });
  if (blower.length > 0) effects.push({ name: "blower", within: blower, prior: PRIOR.blower });
  const open = timeline.of("regulator").length > 0 ? runningStretches(timeline) : [];
  if (open.length > 0) {
    const shut = phases
      .filter((phase) => phase.name === "running")
      .flatMap((phase) => without([[phase.fromS, phase.toS]], open));
    if (shut.length > 0) effects.push({ name: "regulator shut", within: shut, prior: PRIOR.running });
  }
  return effects.filter((effect) => effect.within.some(([fromS, toS]) => toS > fromS));
}

function thoughtOf(name: PhaseName, engineRan: boolean): Pick<DemandEffect, "prior" | "usual"> {
  if (name === "running") return { prior: PRIOR.oneRun };
  if (!engineRan) return { prior: PRIOR.withoutRunning };
  if (name === "standing") return { prior: PRIOR.standing };
  // leaks put nothing in: thought of as none, give or take, they came out too small
  return { prior: PRIOR.leaksOnly, usual: name === "raising" ? LEAKS_USUALLY.raising : LEAKS_USUALLY.shutIn };
}

/** Stretches in which the by-pass was shut; null where none was recorded. */
export const bypassShut = (timeline: Timeline): readonly Stretch[] | null =>
  timeline.of("bypass").length === 0 ? null : stretchesOf(timeline, "bypass", "shut");

/**
 * Stretches in which an axle pump fed the boiler: under way with the by-pass shut (raised and lit, where nothing
 * tells when she ran); null where no by-pass was recorded.
 */
export function pumpingStretches(timeline: Timeline, phases: readonly Phase[]): readonly Stretch[] | null {
  const shut = bypassShut(timeline);
  if (shut === null) return null;
  const running = phases.filter((phase) => phase.name === "running");
  if (running.length > 0) return common(shut, underWayStretches(timeline, phases));
  const standing = phases
    .filter((phase) => phase.name === "standing")
    .map((phase): Stretch => [phase.fromS, phase.toS]);
  return common(shut, standing);
}

/** Stretches in which an axle pump delivered that nobody measured; null where there were none. */
export function unmeasuredPumping(
  timeline: Timeline,
  phases: readonly Phase[],
  locomotive: Locomotive,
): readonly Stretch[] | null {
  if (locomotive.axlePump === undefined) return null;
  if (timeline.of("feed").some((entry) => entry.by === "axle-pump")) return null;
  const pumping = pumpingStretches(timeline, phases);
  return pumping === null || pumping.length === 0 ? null : pumping;
}
