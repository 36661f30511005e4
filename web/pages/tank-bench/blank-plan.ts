import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Plan } from "../../../src/sizing/plan-schema.ts";
import type { Tank } from "../../../src/sizing/tanks-schema.ts";

/** To begin with: half an hour's laps and a pair of side tanks as long as the boiler. */
export function blankPlan(engine: Locomotive): Plan {
  const { shape, outerDiameterMm } = engine.boiler;
  const length = shape.kind === "horizontal" ? Math.round(shape.innerLengthMm * 0.7) : 100;
  const diameter = shape.kind === "table" ? 60 : shape.innerDiameterMm + 3;
  return {
    locomotiveId: engine.id,
    plan: { laps: 30 },
    probability: 0.95,
    tanks: {
      scale: "10 mm to the foot",
      space: {
        ...(outerDiameterMm === undefined ? { boilerOuterDiameter: diameter } : {}),
        lagging: 1.2,
        cleading: 0.3,
        band: 0.2,
        clearance: 1.2,
        loadingGauge: "9 ft",
      },
      water: [blankTank("side-pair", length)],
    },
  };
}

export const tankKinds: readonly (readonly [Tank["kind"], string])[] = [
  ["side-pair", "pair of side tanks"],
  ["well", "well tank"],
  ["bunker", "bunker tank"],
  ["tender", "tender tank"],
];

export function blankTank(kind: Tank["kind"], length = 60): Tank {
  const common = { length, height: 30, plate: 0.7, freeboard: 2, deadDepth: 1 };
  return kind === "side-pair"
    ? { kind, innerFace: "flat", base: -8, ...common }
    : { kind, ...common, height: 20, width: kind === "well" ? 28 : 60 };
}
