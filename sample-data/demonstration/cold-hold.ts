import type { ColdHoldGiven } from "../simulator/cold-hold.ts";
import { instruments, locomotive } from "./tansy.ts";

/** The season's hydraulic hold: twice working pressure, a little air left in, and a joint that sweats. */
export const coldHold: ColdHoldGiven & { seed: number } = {
  head: {
    id: "tansy-2026-08-02",
    title: "Hydraulic hold, cold, the clack re-seated",
    notes:
      "Filled to the brim but for a little air, pumped up by quarter strokes, and left for twenty minutes.",
    startedAt: "2026-08-02T10:00:00+01:00",
  },
  locomotive,
  pressureReadingBar: instruments.pressureReadingBar,
  pressureBiasBar: instruments.pressureBiasBar,
  pressureDivisionBar: instruments.pressureDivisionBar,
  testBar: 6,
  minutes: 20,
  airMl: 1.2,
  strokesEach: 0.25,
  leakMlPerMin: 0.006,
  everyS: 120,
  seed: 15,
};
