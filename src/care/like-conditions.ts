import { linearEstimator } from "../statistics/linear-estimate.ts";
import type { Outing } from "./outings.ts";

/** What differs from run to run on the same track with the same train. */
export type Condition = "pressure" | "speed";

/**
 * How a figure goes with a condition: its change for one of the condition's natural logarithm, as a part of its usual
 * size where its stray is one, else in its own unit. What is thought of it beforehand; the outings themselves
 * tell more (our estimates).
 */
export interface Sway {
  by: Condition;
  mean: number;
  sd: number;
}

/** Natural logarithms of mean pressure while running (bar) and of laps a second; left out where not to be had. */
export type Conditions = Partial<Record<Condition, number>>;

export function conditionsOf({ report }: Outing): Conditions {
  const running = report.phases.filter((phase) => phase.name === "running");
  const seconds = running.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);
  const laps = running.reduce((sum, phase) => sum + phase.laps, 0);
  const barS = running.reduce(
    (sum, { fromS, toS, meanPressureBarG }) => sum + (meanPressureBarG ?? Number.NaN) * (toS - fromS),
    0,
  );
  return {
    ...(barS > 0 && seconds > 0 ? { pressure: Math.log(barS / seconds) } : {}),
    ...(laps > 0 && seconds > 0 ? { speed: Math.log(laps / seconds) } : {}),
  };
}

/** One outing's value with the standard deviation of its own stray and reading, and its conditions. */
export interface Conditioned {
  value: number;
  sd: number;
  conditions: Conditions;
}

/** So much is thought of the level beforehand, in its own standard deviations: next to nothing. */
const OPEN = 1000;

/**
 * What may be expected at the conditions of `now` from outings before: their level, unknown beforehand, with the sway
 * of each condition by Bayesian linear regression. Taken in order, each against all before it, the values less what was
 * expected over their standard deviation are independent standard normal numbers where nothing has changed (recursive
 * residuals: Brown, Durbin & Evans, J. Roy. Statist. Soc. B 37 (1975) 149).
 * @param size the figure's usual size, which sways are parts of; 1 where they are in its own unit
 */
export function expectedLike(
  before: readonly Conditioned[],
  now: Conditions,
  sways: readonly Sway[],
  size: number,
): { value: number; sd: number } {
  const apart = ({ conditions }: Conditioned, { by }: Sway) => {
    const [then, today] = [conditions[by], now[by]];
    return then === undefined || today === undefined ? 0 : then - today;
  };
  const middle = before.reduce((sum, { value }) => sum + value, 0) / before.length;
  const usual = (one: Conditioned) =>
    middle + sways.reduce((sum, sway) => sum + sway.mean * size * apart(one, sway), 0);
  const largest = Math.max(...before.map(({ sd }) => sd));
  const { estimate } = linearEstimator({
    y: Float64Array.from(before, (one) => one.value - usual(one)),
    noise: Float64Array.from(before, ({ sd }) => sd ** 2),
    causes: [
      Float64Array.from(before, () => OPEN * largest),
      ...sways.map((sway) => Float64Array.from(before, (one) => sway.sd * size * apart(one, sway))),
    ],
  });
  const { value, left, uNoise } = estimate([OPEN * largest, ...sways.map(() => 0)]);
  return { value: middle + value, sd: Math.hypot(uNoise, ...left) };
}
