import type { Fitting } from "../logbook/locomotive.ts";
import type { State } from "./state.ts";

export interface Job {
  /** what must come off, in the order its fittings name it */
  takeOff: string[];
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

/** Jobs grouped so that one dismantling serves all that need it: those that share a part are one job. */
export function jobsOf(needs: readonly Need[]): Job[] {
  const groups: Fitting[][] = [];
  for (const { fitting } of needs.filter((need) => need.state === "attend")) {
    const shares = (group: readonly Fitting[]) =>
      group.some((other) => (other.access ?? []).some((part) => (fitting.access ?? []).includes(part)));
    const joined = groups.filter(shares);
    for (const group of joined) groups.splice(groups.indexOf(group), 1);
    groups.push([...joined.flat(), fitting]);
  }
  return groups.map((group) => jobFor(group, needs));
}

function jobFor(group: readonly Fitting[], needs: readonly Need[]): Job {
  const takeOff = [...new Set(group.flatMap((fitting) => fitting.access ?? []))];
  const also = needs
    .filter(({ fitting, state, known }) => {
      const access = fitting.access ?? [];
      return (
        state === "watch" && known && access.length > 0 && access.every((part) => takeOff.includes(part))
      );
    })
    .map(({ fitting }) => fitting);
  const alone = [...group, ...also].reduce((sum, fitting) => sum + (fitting.access?.length ?? 0), 0);
  return {
    takeOff,
    do: group.map((fitting) => fitting.id),
    alsoWorth: also.map((fitting) => fitting.id),
    hoursSaved: HOURS_A_PART * (alone - takeOff.length),
    outingsSaved: group.length + also.length - 1,
  };
}
