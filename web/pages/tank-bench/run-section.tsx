import { isMeasured } from "../../../src/quantity/measured.ts";
import { reported } from "../../../src/quantity/reported.ts";
import { type PlanKind, planKinds, type RunFigures } from "../../../src/sizing/run-figures.ts";
import { valueAt, withValue } from "../../forms/draft.ts";
import { figureInSentence } from "../../words/figure-text.ts";
import { dateInWords } from "../../words/time.ts";
import { type Editing, form, type MeasureSpec, Measures } from "./measure-field.tsx";

const kinds: Record<PlanKind, { name: string; unit: string; each: string; slide: MeasureSpec["slide"] }> = {
  laps: { name: "laps", unit: "laps", each: "a lap", slide: [1, 120, 1] },
  minutes: { name: "minutes", unit: "min", each: "a minute", slide: [1, 90, 1] },
  distanceM: { name: "distance", unit: "m", each: "a metre", slide: [10, 5000, 10] },
};

export const plannedKind = (draft: Editing["draft"]): PlanKind =>
  planKinds.find((kind) => valueAt(draft, `plan.${kind}`) !== undefined) ?? "laps";

const chances = [0.8, 0.9, 0.95, 0.99];

/** How long the run is to be, how surely the water is to last, and from which runs that is known. */
export function RunSection({ runs, editing }: { runs: readonly RunFigures[]; editing: Editing }) {
  const { draft, onDraft } = editing;
  const kind = plannedKind(draft);
  const chance = valueAt(draft, "probability") ?? 0.95;
  const specs: MeasureSpec[] = [
    {
      path: `plan.${kind}`,
      label: "Length of the run",
      unit: kinds[kind].unit,
      slide: kinds[kind].slide,
      ...(kind === "minutes" ? { hint: "as the sheet counts running: with the regulator open" } : {}),
    },
    { path: "allowanceMl", label: "Blow-off, blower, priming", unit: "ml", slide: [0, 100, 1], usual: 0 },
    { path: "reserveMl", label: "Reserve", unit: "ml", slide: [0, 100, 1], usual: 0 },
    { path: "fromBoilerMl", label: "The boiler may give", unit: "ml", slide: [0, 200, 1], usual: 0 },
    {
      path: "plan.trainMassKg",
      label: "Train behind the engine",
      unit: "kg",
      slide: [0, 20, 0.1],
      hint: "enters where five runs have loads that differ",
    },
  ];
  const measureAs = (next: PlanKind) => {
    const { laps: _l, minutes: _m, distanceM: _d, ...rest } = draft.plan as Record<string, unknown>;
    onDraft({ ...draft, plan: { ...rest, [next]: { laps: 30, minutes: 20, distanceM: 1000 }[next] } });
  };
  return (
    <fieldset class="bench-part">
      <legend>The run</legend>
      <div class="fields">
        <div class="field">
          <label for={`${form}-kind`}>
            <span class="label-words">Planned by</span>
          </label>
          <select
            id={`${form}-kind`}
            value={kind}
            onChange={(event) => {
              const next = planKinds.find((one) => one === event.currentTarget.value);
              if (next !== undefined) measureAs(next);
            }}
          >
            {planKinds.map((one) => (
              <option key={one} value={one}>
                {kinds[one].name}
              </option>
            ))}
          </select>
        </div>
        <div class="field">
          <label for={`${form}-probability`}>
            <span class="label-words">The water is to last</span>
          </label>
          <select
            id={`${form}-probability`}
            value={String(chance)}
            onChange={(event) => onDraft(withValue(draft, "probability", Number(event.currentTarget.value)))}
          >
            {[...new Set([...chances, Number(chance)])].map((one) => (
              <option key={one} value={String(one)}>
                {Math.round(one * 1000) / 10} runs in 100
              </option>
            ))}
          </select>
        </div>
      </div>
      <Measures specs={specs} editing={editing} />
      <RunChoice runs={runs} kind={kind} editing={editing} />
    </fieldset>
  );
}

function RunChoice({
  runs,
  kind,
  editing,
}: {
  runs: readonly RunFigures[];
  kind: PlanKind;
  editing: Editing;
}) {
  const { draft, onDraft } = editing;
  const telling = runs.filter((run) => isMeasured(run.per[kind].water));
  const asked = valueAt(draft, "steamings");
  const chosen = Array.isArray(asked) ? asked.map(String) : telling.map((run) => run.steamingId);
  const toggle = (id: string, on: boolean) => {
    const next = telling
      .map((run) => run.steamingId)
      .filter((one) => (one === id ? on : chosen.includes(one)));
    onDraft(withValue(draft, "steamings", next.length === telling.length ? undefined : next));
  };
  if (telling.length === 0) {
    return <p class="hint">No steaming of this engine tells what it draws by {kinds[kind].name}.</p>;
  }
  return (
    <details class="fold">
      <summary>
        From {telling.filter((run) => chosen.includes(run.steamingId)).length} of {telling.length} runs
      </summary>
      <fieldset class="bench-runs">
        <legend class="unseen">Runs to reckon from</legend>
        {telling.map((run) => {
          const water = reported(run.per[kind].water);
          return (
            <label key={run.steamingId} class="run-choice">
              <input
                type="checkbox"
                checked={chosen.includes(run.steamingId)}
                onChange={(event) => toggle(run.steamingId, event.currentTarget.checked)}
              />
              <span>
                {run.title}, {dateInWords(run.startedAt)}: {figureInSentence(water)} {kinds[kind].each}
                {run.trainMassKg === null ? "" : `, train ${run.trainMassKg} kg`}
              </span>
            </label>
          );
        })}
      </fieldset>
    </details>
  );
}
