import type { Fitting } from "../logbook/locomotive.ts";
import type { State } from "./verdict.ts";

export interface Job {
  /** what must come off, in the order its fittings name it; empty too where nobody said what must */
  takeOff: string[];
  /** its fittings say what must come off, if only that nothing must */
  takeOffSaid: boolean;
  do: string[];
  /** watched fittings that stand open once those parts are off */
  alsoWorth: string[];
  /** hours of stripping saved against doing each alone */
  hoursSaved: number;
  /** later layings-up that need not be */
  outingsSaved: number;
}

/** Taking one part off and putting it back, hours: common practice on a small engine. */
const HOURS_A_PART = 0.5;

export interface Need {
  fitting: Fitting;
  state: State;
  /** watched on evidence, and not for want of it */
  known: boolean;
}

/** "Dome" and " dome" are one part. */
const alike = (part: string): string => part.trim().replace(/\s+/g, " ").toLowerCase();

/** Parts that must come off, each once, as it is written first. */
export function partsOf(fittings: readonly Pick<Fitting, "access">[]): string[] {
  const parts = new Map<string, string>();
  for (const part of fittings.flatMap(({ access }) => access ?? [])) {
    const known = alike(part);
    if (known !== "" && !parts.has(known)) parts.set(known, part.trim());
  }
  return [...parts.values()];
}

const keysOf = (fitting: Fitting): Set<string> => new Set(partsOf([fitting]).map(alike));

/** Whether a part must come off to reach a fitting, however it is written. */
export const mustComeOff = (part: string, fitting: Fitting): boolean => keysOf(fitting).has(alike(part));

/** Jobs grouped so that one dismantling serves all that need it: those that share a part are one job. */
export function jobsOf(needs: readonly Need[]): Job[] {
  const groups: Fitting[][] = [];
  for (const { fitting } of needs.filter((need) => need.state === "attend")) {
    const own = keysOf(fitting);
    const shares = (group: readonly Fitting[]) =>
      group.some((other) => [...keysOf(other)].some((part) => own.has(part)));
    const joined = groups.filter(shares);
    for (const group of joined) groups.splice(groups.indexOf(group), 1);
    groups.push([...joined.flat(), fitting]);
  }
  return groups.map((group) => jobFor(group, needs));
}

function jobFor(group: readonly Fitting[], needs: readonly Need[]): Job {
  const takeOff = partsOf(group);
  const off = new Set(takeOff.map(alike));
  const also = needs
    .filter(({ fitting, state, known }) => {
      const own = [...keysOf(fitting)];
      return state === "watch" && known && own.length > 0 && own.every((part) => off.has(part));
    })
    .map(({ fitting }) => fitting);
  const alone = [...group, ...also].reduce((sum, fitting) => sum + keysOf(fitting).size, 0);
  return {
    takeOff,
    takeOffSaid: group.every(({ access }) => access !== undefined),
    do: group.map((fitting) => fitting.id),
    alsoWorth: also.map((fitting) => fitting.id),
    hoursSaved: HOURS_A_PART * (alone - takeOff.length),
    outingsSaved: group.length + also.length - 1,
  };
}
