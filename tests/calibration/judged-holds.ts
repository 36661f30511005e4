import type { Simulation } from "../../sample-data/simulator/simulate.ts";
import type { Analysis } from "../../src/analysis/analyse.ts";
import type { Judged } from "./judged.ts";

/** Drips, cooling and the safety valve beside their truth. */
export function judgedHolds({ truth }: Simulation, analysis: Analysis): Judged[] {
  const drips = (analysis.leaks ?? []).map(
    (drip): Judged => ({
      name: "drip",
      figure: drip.rate,
      truth:
        truth.drips.find((one) => one.fitting === drip.fitting && one.atS === drip.atS)
          ?.gPerMinAtWorkingPressure ?? null,
    }),
  );
  const { cooling } = analysis;
  const cooled: Judged[] =
    cooling === null
      ? []
      : [
          {
            name: "loss in still air",
            figure: cooling.lossAtWorkingPressure,
            truth: truth.lossAtWorkingPressureW,
          },
          { name: "leak, shut in", figure: cooling.leak, truth: truth.shutInLeakGPerMin },
        ];
  const { safetyValve: valve } = analysis;
  const blown: Judged[] =
    valve === null
      ? []
      : [
          { name: "valve lifts", figure: valve.lift, truth: truth.safetyValve.liftBarG },
          { name: "valve reseats", figure: valve.reseat, truth: truth.safetyValve.reseatBarG },
          { name: "highest pressure", figure: valve.highest, truth: truth.safetyValve.highestBarG },
        ];
  return [...cooled, ...drips, ...blown];
}
