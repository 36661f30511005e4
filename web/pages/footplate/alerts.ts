import { useEffect, useRef } from "preact/hooks";
import { footplate } from "../../preferences/footplate.ts";
import { alarmSound, buzz, dueSound } from "./signals.ts";
import type { Alarm, Standing } from "./standing.ts";

export interface Overdue {
  pressure: boolean;
  water: boolean;
}

/** Which readings the owner wants by now; while the fire burns, and where an interval was chosen. */
export function overdueOf(standing: Standing, nowS: number): Overdue {
  const { pressureDueMin, waterDueMin } = footplate.value;
  const isDue = (lastS: number | undefined, minutes: number) =>
    minutes > 0 && standing.fire === "lit" && (lastS === undefined || nowS - lastS > 60 * minutes);
  return {
    pressure: isDue(standing.pressure?.atS, pressureDueMin),
    water: isDue(standing.level?.atS, waterDueMin),
  };
}

/** Speaks up when an alarm is raised or a reading falls due, once for each. */
export function useAlerts(alarms: readonly Alarm[], overdue: Overdue): void {
  useRaised(
    alarms.map((alarm) => alarm.name),
    () => {
      alarmSound();
      buzz([200, 100, 200, 100, 200]);
    },
  );
  useRaised(
    (["pressure", "water"] as const).filter((each) => overdue[each]),
    () => {
      dueSound();
      buzz([80, 80, 80]);
    },
  );
}

/** Does something when a name comes up that was not there before. */
function useRaised(names: readonly string[], raised: () => void): void {
  const before = useRef<ReadonlySet<string>>(new Set());
  const now = names.join(" ");
  useEffect(() => {
    const set = new Set(now === "" ? [] : now.split(" "));
    if ([...set].some((name) => !before.current.has(name))) raised();
    before.current = set;
  }, [now]);
}
