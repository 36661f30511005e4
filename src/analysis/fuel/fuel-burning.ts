import type { Fuel } from "../../logbook/locomotive.ts";
import { overlapS } from "../../logbook/timeline.ts";
import { type Measured, type Part, standardUncertainty } from "../../quantity/measured.ts";
import type { PhaseName } from "../report-schema.ts";
import type { Phase, Stretch } from "../state/phases.ts";
import { isSolid } from "./fuel-table.ts";

/** How a kind of fire burns; all are our estimates, held to account by the calibration. */
export interface Burning {
  /**
   * How hard in each phase, against running: a grate lives by the draught of the exhaust or the blower, a gas burner is open
   * for raising, turned down to three quarters of that under way and to a half at rest, spirit burns on, a little harder from a
   * full pot.
   */
  against: Record<PhaseName, number>;
  /**
   * How far one part of the time may depart from that, where no heat tells: relative standard deviation of its rate against the
   * rest. A grate blown hard while steam is raised or standing burns as evenly as a lamp, and is within two of them.
   */
  astray: number;
  /** what that owes to errors in common, with their signs, as `astray` is */
  owed: readonly Part[];
  /** how it goes on against how it burnt so far, relative standard uncertainty: a gas tank cools, a grate is fired as needed */
  goesOn: number;
  /**
   * What still burns once it is out, in seconds as of running, give or take, and how it dies: coals glow on for 60 to 350 s, 150
   * in the middle (common practice), as hard as they do standing; of spirit and gas a few seconds' worth is on its way.
   */
  glow: { asRunningS: number; uS: number; diesS: number };
  /** efficiency of boilers so fired, and the relative standard deviation of one from another */
  usual: { efficiency: number; factor: number };
}

const solid: Burning = {
  against: { raising: 0.5, standing: 0.3, running: 1, "shut-in": 0.3 },
  astray: 0.6,
  owed: [],
  goesOn: 0.3,
  glow: { asRunningS: 0.3 * 150, uS: 30, diesS: 150 },
  usual: { efficiency: 0.45, factor: 0.3 },
};
const gas: Burning = {
  against: { raising: 1.3, standing: 0.7, running: 1, "shut-in": 1 },
  astray: 0.2,
  owed: [],
  goesOn: 0.12,
  glow: { asRunningS: 3, uS: 3, diesS: 5 },
  usual: { efficiency: 0.42, factor: 0.3 },
};
const spirit: Burning = {
  against: { raising: 1.1, standing: 1, running: 1, "shut-in": 1 },
  astray: 0.2,
  owed: [],
  goesOn: 0.06,
  glow: { asRunningS: 3, uS: 3, diesS: 5 },
  usual: { efficiency: 0.3, factor: 0.4 },
};

export const burningOf = (fuel: Pick<Fuel, "kind">): Burning =>
  isSolid(fuel) ? solid : fuel.kind === "spirit" ? spirit : gas;

export type Clock = (fromS: number, toS: number) => number;

/** Seconds of burning in a window, counted as of running. */
export function burningClock(
  fire: readonly Stretch[],
  phases: readonly Phase[],
  { against }: Pick<Burning, "against">,
): Clock {
  return (fromS, toS) => {
    let total = overlapS(fire, fromS, toS);
    for (const phase of phases) {
      const lit = overlapS(fire, Math.max(fromS, phase.fromS), Math.min(toS, phase.toS));
      total += (against[phase.name] - 1) * lit;
    }
    return total;
  };
}

/**
 * The same fire, harder or less hard whenever she did not run, by as much as the heat that came under way tells: what is thought
 * of such fires and what the heat says, each by what it is known by.
 */
export function asHeatGoes(
  how: Burning,
  burning: Clock,
  phases: readonly Phase[],
  fire: readonly Stretch[],
  underWay: Measured,
): Burning {
  const over = (stretches: readonly Stretch[]) =>
    stretches.reduce((sum, [fromS, toS]) => sum + burning(fromS, toS), 0);
  const ran = over(
    phases.flatMap(({ name, fromS, toS }): Stretch[] => (name === "running" ? [[fromS, toS]] : [])),
  );
  const thought = ran / over(fire);
  if (!(thought > 0 && thought < 1)) return how;
  // in logarithms of running against the rest, in which either is in doubt by as much whatever they are
  const heat = underWay.value;
  const uHeat = standardUncertainty(underWay) / (heat * (1 - heat));
  const weight = how.astray ** 2 / (how.astray ** 2 + uHeat ** 2);
  const times = ((thought * (1 - heat)) / (heat * (1 - thought))) ** weight;
  const { running } = how.against;
  const against = Object.fromEntries(
    Object.entries(how.against).map(([name, pace]) => [name, pace * times]),
  ) as Record<PhaseName, number>;
  const owed = underWay.parts
    .filter(({ source }) => source !== undefined)
    .map((part) => ({ ...part, u: (weight * part.u) / (heat * (1 - heat)) }));
  const u2 = (1 - weight) * how.astray ** 2 - owed.reduce((sum, { u }) => sum + u ** 2, 0);
  return { ...how, against: { ...against, running }, astray: Math.sqrt(Math.max(0, u2)), owed };
}

/** Part of the glow after the fire was out that burns in a window; none while it is lit. */
export function glowClock(outS: number | null, { glow }: Pick<Burning, "glow">): Clock {
  if (outS === null) return () => 0;
  const left = (atS: number) => Math.exp(-Math.max(0, atS - outS) / glow.diesS);
  return (fromS, toS) => (toS > fromS ? left(fromS) - left(toS) : 0);
}
