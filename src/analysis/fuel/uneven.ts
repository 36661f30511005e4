import { overlapS } from "../../logbook/timeline.ts";
import type { Part } from "../../quantity/measured.ts";
import { common, type Phase, type Stretch } from "../state/phases.ts";
import type { Burning, Clock } from "./fuel-burning.ts";

/** Burnt between two looks, and how much of it in the windows asked for. */
export interface BetweenLooks {
  fromS: number;
  toS: number;
  grams: number;
  /** part of it in the windows */
  share: number;
  /** seconds as of running that it burnt in, those after the fire was out included */
  all: number;
}

/** At rest a fire is turned down to a glimmer or burns on as hard as under way, as a part of that: evenly anything between (our estimate). */
const AT_REST = Math.sqrt(1 / 12);

/**
 * How weighings err where a fire did not burn as thought: it is eased or stirred as one phase gives way to the next, so each has a
 * doubt of its own, the same to all weighings in it, and what one burnt more another burnt less. Running against the rest is
 * as far astray as ever, and so are any two phases of either against each other, but at rest.
 * @returns signed parts, each with a source by its phase
 */
export function unevenByPhase(
  phases: readonly Phase[],
  burning: Clock,
  { fromS, toS, grams, share, all }: BetweenLooks,
  windows: readonly Stretch[],
  { astray, against }: Pick<Burning, "astray" | "against">,
  { name, sourceOf }: { name: string; sourceOf: (what: string) => string },
): Part[] {
  const over = (stretches: readonly Stretch[]) =>
    stretches.reduce((sum, [a, b]) => sum + burning(a, b), 0) / all;
  const lit = phases
    .filter((phase) => overlapS([[fromS, toS]], phase.fromS, phase.toS) > 0)
    .map((phase) => {
      const within = common([[phase.fromS, phase.toS]], [[fromS, toS]]);
      return { phase, all: over(within), asked: over(common(within, windows)) };
    });
  const ran = lit.filter(({ phase }) => phase.name === "running");
  const rest = lit.filter(({ phase }) => phase.name !== "running");
  const sum = (of: typeof lit) => ({
    all: of.reduce((total, one) => total + one.all, 0),
    asked: of.reduce((total, one) => total + one.asked, 0),
  });
  const ofPhase = ({ name }: Phase) =>
    name === "standing" ? AT_REST / against.standing : astray * Math.SQRT1_2;
  const part = (what: string, one: Share, whole: Share, u: number): Part => ({
    name,
    source: sourceOf(what),
    u: u * grams * (one.asked - (whole.asked * one.all) / whole.all),
  });
  const running = sum(ran);
  return [
    part("while running", running, { all: 1, asked: share }, astray),
    ...[ran, rest].flatMap((group) =>
      group
        .filter((one) => one.all > 0)
        .map((one) => part(`from ${one.phase.fromS} s`, one, sum(group), ofPhase(one.phase))),
    ),
  ].filter(({ u }) => Math.abs(u) > NO_PART * grams);
}

interface Share {
  all: number;
  asked: number;
}

/** Less of what was burnt than this is a rounding of the computer's. */
const NO_PART = 1e-12;
