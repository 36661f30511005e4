import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "./small-logbook.ts";

/** The small engine with a dial that was compared with a good one. */
export const valveEngine = (): Locomotive => ({
  ...smallEngine(),
  instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.01 },
});

const everyS = 0.2;
const forS = 600;
const lifts = [150, 400];

/** Pressure: up to 3.2 bar at each lift, down by 0.3 in 20 s, then slowly up again. */
function barG(atS: number): number {
  const since = lifts.findLast((liftS) => atS >= liftS);
  if (since === undefined) return 2.6 + (0.6 * atS) / 150;
  const s = atS - since;
  return s <= 20 ? 3.2 - 0.015 * s : 2.9 + (0.3 * (s - 20)) / 230;
}

/** Ten minutes of a small engine's safety valve tried beside a logger, by a formula: evidence of nothing. */
export const valveTest = (id: string, written: { lifts?: boolean; reseats?: boolean }): Steaming => ({
  ...smallSteaming(),
  id,
  purpose: "safety-valve",
  entries: [
    { kind: "fire", state: "lit", atS: 0 },
    { kind: "pressure", barG: 2.6, atS: 0 },
    ...(written.lifts === true
      ? lifts.map((atS) => ({ kind: "valve" as const, state: "lifts" as const, atS }))
      : []),
    ...(written.reseats === true
      ? lifts.map((atS) => ({ kind: "valve" as const, state: "reseats" as const, atS: atS + 20 }))
      : []),
    { kind: "fire", state: "out", atS: forS },
    { kind: "pressure", barG: 3.14, atS: forS },
  ],
  traces: [
    {
      channel: "pressureBarG",
      startS: 0,
      everyS,
      values: Array.from({ length: forS / everyS + 1 }, (_, i) => {
        const ripple = 0.01 * Math.sin(2.4 * i ** 1.3);
        return Number((barG(i * everyS) + ripple).toFixed(3));
      }),
    },
  ],
});
