import { isMeasured } from "../quantity/measured.ts";
import { reported } from "../quantity/reported.ts";
import { type DemandModel, demandModelOf, whyNoAmount } from "./demand-model.ts";
import { fuelModelOf } from "./fuel-tank.ts";
import type { Plan } from "./plan-schema.ts";
import { type PlanKind, planKinds, type RunFigures } from "./run-figures.ts";
import type { Sizing } from "./sizing-schema.ts";

export const planUnits: Record<PlanKind, string> = { laps: "laps", minutes: "min", distanceM: "m" };

/** What hangs on the runs and not on the space: kept by a page while dimensions move. */
export interface Models {
  kind: PlanKind;
  amount: number;
  runs: readonly RunFigures[];
  /** all of the engine that there are, chosen or not */
  all: readonly RunFigures[];
  /** how many of those chosen are not there */
  missing: number;
  told: Sizing["runs"];
  water: DemandModel | null;
  perMinute: DemandModel | null;
  fuel: DemandModel | null;
  /** why runs that tell the water, or the fuel, yet tell no amount at the planned load */
  noWater: string | null;
  noFuel: string | null;
}

export function modelsOf(runs: readonly RunFigures[], plan: Plan): Models {
  const kind = planKinds.find((one) => plan.plan[one] !== undefined) ?? "laps";
  const amount = plan.plan[kind] ?? 0;
  const chosen = runs.filter(
    (run) => plan.steamings === undefined || plan.steamings.includes(run.steamingId),
  );
  const options = { spreadRelative: plan.spreadRelative, trainMassKg: plan.plan.trainMassKg };
  const model = (of: PlanKind) =>
    demandModelOf(
      chosen.map((run) => ({ figure: run.per[of].water, trainMassKg: run.trainMassKg })),
      options,
    );
  const told = { water: model(kind), fuel: fuelModelOf(chosen, plan, kind, amount) };
  const [noWater, noFuel] = [told.water, told.fuel].map((one) => (one === null ? null : whyNoAmount(one)));
  const water = withAmount(told.water);
  return {
    kind,
    amount,
    runs: chosen,
    all: runs,
    missing: (plan.steamings ?? []).length - (plan.steamings === undefined ? 0 : chosen.length),
    told: toldBy(chosen, kind),
    water,
    perMinute: kind === "minutes" ? water : withAmount(model("minutes")),
    fuel: withAmount(told.fuel),
    noWater: noWater ?? null,
    noFuel: noFuel ?? (told.fuel === null ? whyNoFuel(chosen, kind) : null),
  };
}

/** The first of the reasons that the runs have, where none tells the fuel of a whole steaming. */
function whyNoFuel(runs: readonly RunFigures[], kind: PlanKind): string {
  const [reason] = runs.flatMap(({ per, otherFuel }) =>
    [per[kind].fuel, otherFuel].flatMap((figure) => (figure.value === null ? [figure.why] : [])),
  );
  return reason === undefined
    ? "no steaming was chosen"
    : `no chosen run tells what fuel a whole steaming of so many ${planUnits[kind]} burns: ${reason}`;
}

const withAmount = (model: DemandModel | null): DemandModel | null =>
  model === null || whyNoAmount(model) !== null ? null : model;

/** The runs that tell the figure, each with it. */
const toldBy = (runs: readonly RunFigures[], kind: PlanKind): Sizing["runs"] =>
  runs.flatMap((run) => {
    const { water, amount } = run.per[kind];
    return isMeasured(water)
      ? [
          {
            steamingId: run.steamingId,
            title: run.title,
            startedAt: run.startedAt,
            water: reported(water),
            amount,
            trainMassKg: run.trainMassKg,
          },
        ]
      : [];
  });
