import { useSignal } from "@preact/signals";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { fitInAWord } from "../../../src/sizing/fit-words.ts";
import type { Plan } from "../../../src/sizing/plan-schema.ts";
import { ofHundred, roundedDown } from "../../../src/sizing/rounding.ts";
import type { RunFigures } from "../../../src/sizing/run-figures.ts";
import { modelsOf, sizeUp } from "../../../src/sizing/size.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { addresses } from "../../api/addresses.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Refused } from "../../parts/refused.tsx";
import { figureInSentence } from "../../words/figure-text.ts";
import { plain } from "../../words/number.ts";

export interface KeptPlan {
  name: string;
  plan: Plan;
}

interface Properties {
  engine: Locomotive;
  runs: readonly RunFigures[];
  plans: readonly KeptPlan[];
  /** as it stands; null where what is typed is no plan yet */
  plan: Plan | null;
  sizing: Sizing | null;
  name: string;
  onName: (name: string) => void;
  onOpen: (plan: KeptPlan) => void;
  onChanged: () => void;
}

/** Plans kept by name: keep this one, open another, or set two beside each other. */
export function PlanShelf(properties: Properties) {
  const { engine, plans, plan, name, onName, onOpen, onChanged } = properties;
  const { sending, refusal, submit } = useSubmit();
  const said = useSignal("");
  const against = useSignal("");
  const address = addresses.plan(engine.id, name.trim());
  const keep = async () => {
    if (plan === null || name.trim() === "") return;
    if (await submit("PUT", address, plan)) {
      said.value = `Kept: ${name.trim()}`;
      onChanged();
    }
  };
  const takeOut = async (one: KeptPlan) => {
    if (await submit("DELETE", addresses.plan(engine.id, one.name), undefined)) {
      said.value = `Taken out: ${one.name}`;
      onChanged();
    }
  };
  const other = plans.find((one) => one.name === against.value);
  return (
    <section class="bench-shelf on-screen" aria-labelledby="shelf-title">
      <h2 id="shelf-title">Plans</h2>
      <form
        class="bench-keep"
        onSubmit={(event) => {
          event.preventDefault();
          void keep();
        }}
      >
        <div class="field">
          <label for="plan-name">
            <span class="label-words">Name of this plan</span>
          </label>
          <input
            id="plan-name"
            type="text"
            autocomplete="off"
            value={name}
            onInput={(event) => onName(event.currentTarget.value)}
          />
        </div>
        <button type="submit" class="primary" disabled={sending.value || plan === null || name.trim() === ""}>
          Keep the plan
        </button>
      </form>
      <p role="status" class="hint">
        {said.value}
      </p>
      {refusal.value !== null && <Refused word="Not done" refusal={refusal.value} />}
      {plans.length > 0 && (
        <ul class="bench-plans">
          {plans.map((one) => (
            <li key={one.name}>
              <span>{one.name}</span>
              <button type="button" class="as-link" onClick={() => onOpen(one)}>
                Open<span class="unseen"> {one.name}</span>
              </button>
              <button type="button" class="as-link" onClick={() => void takeOut(one)}>
                Take out<span class="unseen"> {one.name}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {plans.length > 0 && (
        <div class="field">
          <label for="plan-against">
            <span class="label-words">Set beside it</span>
          </label>
          <select
            id="plan-against"
            value={against.value}
            onChange={(event) => {
              against.value = event.currentTarget.value;
            }}
          >
            <option value="">no other plan</option>
            {plans.map((one) => (
              <option key={one.name} value={one.name}>
                {one.name}
              </option>
            ))}
          </select>
        </div>
      )}
      {other !== undefined && properties.sizing !== null && (
        <SideBySide
          left={["as it stands", properties.sizing]}
          right={[other.name, sizeUp(engine, other.plan, modelsOf(properties.runs, other.plan)).sizing]}
        />
      )}
    </section>
  );
}

type Titled = readonly [name: string, sizing: Sizing];

const rows: readonly (readonly [string, (sizing: Sizing) => string])[] = [
  ["water expected", ({ demand }) => figureInSentence(demand) ?? "not known"],
  ["water that suffices", ({ bound }) => figureInSentence(bound) ?? "not known"],
  [
    "tanks hold to use",
    ({ fit }) => (fit === null ? "no tanks" : `${plain(roundedDown(fit.usableMl, 0), 0)} ml`),
  ],
  ["enough", ({ fit }) => (fit === null ? "no tanks" : fitInAWord(fit))],
  ["water lasts", ({ endurance }) => figureInSentence(endurance.waterLasts) ?? "not known"],
  ["fuel lasts", ({ endurance }) => figureInSentence(endurance.fuelLasts) ?? "not known"],
  [
    "fire ends first",
    ({ endurance }) =>
      endurance.fuelEndsFirst === null ? "not known" : `in ${ofHundred(endurance.fuelEndsFirst)} of 100 runs`,
  ],
  ["fuel tank", ({ fuel }) => figureInSentence(fuel.tankMl) ?? "not known"],
  ["heat lost", ({ lagging }) => (lagging === null ? "not known" : `${plain(lagging.laggedW, 1)} W`)],
];

function SideBySide({ left, right }: { left: Titled; right: Titled }) {
  return (
    <table class="bench-table">
      <caption>Two plans beside each other</caption>
      <thead>
        <tr>
          <th scope="col" />
          <th scope="col">{left[0]}</th>
          <th scope="col">{right[0]}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, words]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{words(left[1])}</td>
            <td>{words(right[1])}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
