import type { RunFigures } from "../../../src/sizing/run-figures.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Shed } from "../../api/shapes.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { Loading } from "../../parts/loading.tsx";
import { replaceAddress, route } from "../../route.ts";
import { Bench } from "./bench.tsx";
import type { KeptPlan } from "./plan-shelf.tsx";

const benchAddress = (id: string): string => `#/tank-bench/${encodeURIComponent(id)}`;

/** Tanks sized from measured consumption, in the space that the engine leaves. */
export default function TankBenchPage() {
  const shed = useLoaded<Shed>(furtherAddresses.shed);
  const { value, refusal } = shed.loaded.value;
  const engines = value?.engines.map(({ locomotive }) => locomotive) ?? [];
  const engine = engines.find(({ id }) => id === route.value.id) ?? engines[0];
  return (
    <>
      <div class="page-head">
        <h1>Tank bench</h1>
        {engines.length > 1 && engine !== undefined && (
          <div class="field bench-engine on-screen">
            <label for="bench-engine">
              <span class="label-words">Engine</span>
            </label>
            <select
              id="bench-engine"
              value={engine.id}
              onChange={(event) => replaceAddress(benchAddress(event.currentTarget.value))}
            >
              {engines.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </div>
        )}
      </div>
      {value === null ? (
        <Loading what="list of engines" refusal={refusal} retry={() => void shed.reload()} />
      ) : engine === undefined ? (
        <p class="lead">
          There is no engine yet. Begin with one in the <a href="#/shed">Shed</a>.
        </p>
      ) : (
        <OfEngine key={engine.id} engine={engine} />
      )}
      <Cautions />
    </>
  );
}

function OfEngine({ engine }: { engine: Shed["engines"][number]["locomotive"] }) {
  const runs = useLoaded<RunFigures[]>(furtherAddresses.runFigures(engine.id));
  const plans = useLoaded<KeptPlan[]>(furtherAddresses.plans(engine.id));
  const { value: figures, refusal: noRuns } = runs.loaded.value;
  const { value: kept, refusal: noPlans } = plans.loaded.value;
  const refusal = noRuns ?? noPlans;
  if (figures === null || kept === null) {
    const retry = () => void Promise.all([runs.reload(), plans.reload()]);
    return <Loading what="what the runs tell" refusal={refusal} retry={retry} />;
  }
  return <Bench engine={engine} runs={figures} plans={kept} onPlansChanged={() => void plans.reload()} />;
}
