import type { Simulation } from "../../sample-data/simulator/simulate.ts";
import type { Analysis } from "../../src/analysis/analyse.ts";
import { absent } from "../../src/quantity/measured.ts";
import type { Judged } from "./judged.ts";

const notThere = absent("section is null");

/** Engine and axle pump beside their truth; no truth where the train's resistance was not told or the pump never fed. */
export function judgedEngineAndPump(
  { truth, steaming }: Simulation,
  { engine, pump, sources }: Analysis,
): Judged[] {
  const { train } = steaming;
  const left = sources.fuel.leftUnread ? ", left unread" : "";
  const told = train?.resistanceRatio !== undefined && train.massKg > 0;
  const turned = truth.pump !== null && truth.pump.revolutions > 0 ? truth.pump : null;
  return [
    {
      name: "dry demand",
      figure: engine?.dryDemand ?? notThere,
      truth: truth.engine?.dryDemandGPerRev ?? null,
    },
    {
      name: "missing quantity",
      figure: engine?.missingQuantity ?? notThere,
      truth: truth.engine?.missingQuantity ?? null,
    },
    {
      name: `overall efficiency${left}`,
      figure: engine?.overallEfficiency ?? notThere,
      truth: truth.engine === null || !told ? null : truth.engine.workJ / truth.heat.fuelHeatJ,
    },
    {
      name: "pump, ml a turn",
      figure: pump?.perRevolution ?? notThere,
      truth: turned?.mlPerRevolution ?? null,
    },
    {
      name: "volumetric efficiency",
      figure: pump?.volumetricEfficiency ?? notThere,
      truth: turned?.volumetricEfficiency ?? null,
    },
  ];
}
