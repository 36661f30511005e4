import type { Locomotive } from "../../logbook/locomotive.ts";
import { isSolid } from "../fuel/fuel-table.ts";

/** What leaks while she runs, as a part of all that is drawn then (our estimate for usual glands, joints and clacks). */
export const LEAKS = { usual: 0.04, u: 0.025 };
/**
 * What the safety valve may have let go besides, where nobody wrote it down though the pressure came near its lift: a spirit
 * fire burns on whatever the engine takes, a gas burner is turned down, a grate is eased (our estimates).
 */
const UNNOTED_VALVE = {
  spirit: { usual: 0.18, u: 0.12 },
  gas: { usual: 0.02, u: 0.04 },
  solid: { usual: 0.05, u: 0.06 },
  other: { usual: 0.06, u: 0.08 },
};
/** The part of all drawn under way that it usually takes, and its doubt. */
export function unnotedValve({ fuel }: Locomotive): { usual: number; u: number } {
  if (fuel.kind === "spirit" || fuel.kind === "other") return UNNOTED_VALVE[fuel.kind];
  return isSolid(fuel) ? UNNOTED_VALVE.solid : UNNOTED_VALVE.gas;
}
