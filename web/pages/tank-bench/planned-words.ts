import type { Plan } from "../../../src/sizing/plan-schema.ts";
import { planKinds } from "../../../src/sizing/run-figures.ts";
import { asTaken } from "../../words/number.ts";

const units = { laps: "laps", minutes: "minutes", distanceM: "m" } as const;

/** "30 laps" */
export function plannedWords({ plan }: Plan): string {
  const kind = planKinds.find((one) => plan[one] !== undefined) ?? "laps";
  const amount = plan[kind] ?? 0;
  return `${asTaken(amount)} ${amount === 1 && kind !== "distanceM" ? units[kind].slice(0, -1) : units[kind]}`;
}
