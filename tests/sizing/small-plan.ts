import type { Plan } from "../../src/sizing/plan-schema.ts";

/** A plan of tanks for the small invented engine. */
export const smallPlan = (): Plan => ({
  locomotiveId: "small",
  plan: { laps: 10 },
  reserveMl: 10,
  allowanceMl: 5,
  tanks: {
    scale: "10 mm to the foot",
    space: { boilerOuterDiameter: 52, loadingGauge: "9 ft" },
    water: [{ kind: "side-pair", length: 80, height: "1 in", base: -6, freeboard: 2, deadDepth: 1 }],
    solve: { tank: 0, dimension: "length", atMost: 180 },
  },
});
