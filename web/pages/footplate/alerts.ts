import { useLayoutEffect, useRef } from "preact/hooks";
import { footplate } from "../../preferences/footplate.ts";
import { alarmSound, buzz, dueSound, touched } from "./signals.ts";
import { isAtWork, type Standing } from "./standing.ts";

export interface Overdue {
  pressure: boolean;
  water: boolean;
}

/**
 * Which readings the owner wants by now; while she is in steam, and where an interval was chosen.
 * @param unreadS what was never read counts as read then; by itself it is wanted at once
 */
export function overdueOf(standing: Standing, nowS: number, unreadS = Number.NEGATIVE_INFINITY): Overdue {
  const { pressureDueMin, waterDueMin } = footplate.value;
  const isDue = (lastS = unreadS, minutes: number) =>
    minutes > 0 && isAtWork(standing) && nowS - lastS > 60 * minutes;
  return {
    pressure: isDue(standing.pressure?.atS, pressureDueMin),
    water: isDue(standing.level?.atS, waterDueMin),
  };
}

/** Speaks up when an alarm is raised or a reading falls due, once for each call. */
export function useAlerts(calls: readonly string[], overdue: Overdue): void {
  useRaised(calls, () => {
    alarmSound();
    buzz([200, 100, 200, 100, 200]);
  });
  useRaised(
    (["pressure", "water"] as const).filter((each) => overdue[each]),
    () => {
      dueSound();
      buzz([80, 80, 80]);
    },
  );
}

/** Does something when a name comes up that was not there before; looked at whenever the page is drawn. */
function useRaised(names: readonly string[], raised: () => void): void {
  const said = useRef<ReadonlySet<string>>(new Set());
  useLayoutEffect(() => {
    const now = newlySaid(said.current, names, touched());
    if (now !== null) raised();
    said.current = now ?? new Set(names.filter((name) => said.current.has(name)));
  });
}

/** What has been said with what is said now; null where there is nothing to say, or nobody would hear it. */
export const newlySaid = (said: ReadonlySet<string>, names: readonly string[], isHeard: boolean) =>
  isHeard && names.some((name) => !said.has(name)) ? new Set(names) : null;
