import { useSignal } from "@preact/signals";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Reported } from "../../../src/quantity/reported.ts";
import { fitInAWord, heldWords } from "../../../src/sizing/fit-words.ts";
import { modelsOf } from "../../../src/sizing/models.ts";
import type { Plan } from "../../../src/sizing/plan-schema.ts";
import { ofHundred, roundedUp } from "../../../src/sizing/rounding.ts";
import type { RunFigures } from "../../../src/sizing/run-figures.ts";
import { sizeUp } from "../../../src/sizing/size.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { mayWrite } from "../../api/token.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Refused } from "../../parts/refused.tsx";
import { figureInSentence } from "../../words/figure-text.ts";
import { plain } from "../../words/number.ts";
import { plannedWords } from "./planned-words.ts";

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
  /** from the beginning, with nothing kept taken out */
  onFresh: () => void;
  onChanged: () => void;
}

/** Plans kept by name: keep this one, open another, or set two beside each other. */
export function PlanShelf(properties: Properties) {
  const { engine, plans, plan, name, onName, onOpen, onFresh, onChanged } = properties;
  const { sending, refusal, submit } = useSubmit();
  const said = useSignal("");
  const takenOut = useSignal<KeptPlan | null>(null);
  const against = useSignal("");
  const address = furtherAddresses.plan(engine.id, name.trim());
  const keep = async () => {
    if (plan === null || name.trim() === "") return;
    const instead = plans.some((one) => one.name === name.trim());
    if (await submit("PUT", address, plan)) {
      said.value = `Kept: ${name.trim()}${instead ? ", in place of what it was" : ""}`;
      takenOut.value = null;
      onChanged();
    }
  };
  const putBack = async (one: KeptPlan) => {
    if (await submit("PUT", furtherAddresses.plan(engine.id, one.name), one.plan)) {
      said.value = `Put back: ${one.name}`;
      takenOut.value = null;
      onChanged();
    }
  };
  const takeOut = async (one: KeptPlan) => {
    if (await submit("DELETE", furtherAddresses.plan(engine.id, one.name), undefined)) {
      said.value = `Taken out: ${one.name}`;
      takenOut.value = one;
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
        {mayWrite() && (
          <>
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
            <button
              type="submit"
              class="primary"
              disabled={sending.value || plan === null || name.trim() === ""}
            >
              Keep the plan
            </button>
          </>
        )}
        <button
          type="button"
          onClick={() => {
            onFresh();
            said.value = "A new plan is begun";
            takenOut.value = null;
          }}
        >
          Begin a new plan
        </button>
      </form>
      <div class="bench-said">
        <p role="status" class="hint">
          {said.value}
        </p>
        {takenOut.value !== null && (
          <button
            type="button"
            class="as-link"
            onClick={() => {
              if (takenOut.value !== null) void putBack(takenOut.value);
            }}
          >
            Put it back
          </button>
        )}
      </div>
      {refusal.value !== null && <Refused word="Not done" refusal={refusal.value} />}
      {plans.length > 0 && (
        <ul class="bench-plans">
          {plans.map((one) => (
            <li key={one.name}>
              <span>{one.name}</span>
              <button
                type="button"
                class="as-link"
                onClick={() => {
                  onOpen(one);
                  said.value = `Opened: ${one.name}`;
                  takenOut.value = null;
                }}
              >
                Open<span class="unseen"> {one.name}</span>
              </button>
              {mayWrite() && (
                <button type="button" class="as-link" onClick={() => void takeOut(one)}>
                  Take out<span class="unseen"> {one.name}</span>
                </button>
              )}
            </li>
          ))}
        </ul>
      )}
      {plans.length > 0 && (
        <div class="field">
          <label for="plan-against">
            <span class="label-words">Compare it with</span>
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
      {other !== undefined && plan !== null && properties.sizing !== null && (
        <SideBySide
          left={["as it stands", plan, properties.sizing]}
          right={[
            other.name,
            other.plan,
            sizeUp(engine, other.plan, modelsOf(properties.runs, other.plan)).sizing,
          ]}
        />
      )}
    </section>
  );
}

type Titled = readonly [name: string, plan: Plan, sizing: Sizing];

/** A need in whole ml, upwards. */
const need = (figure: Reported): string =>
  figure.value === null ? "not known" : `${plain(roundedUp(figure.value, 0), 0)} ${figure.unit}`;

const heldOf = (fit: NonNullable<Sizing["fit"]>): string => {
  const { holds, needs } = heldWords(fit);
  return `${holds} of ${needs}`;
};

const sizesOf = ({ tanks }: Sizing): string =>
  tanks
    .map(({ name, lengthMm, widthMm, heightMm }) =>
      lengthMm === null || widthMm === null || heightMm === null
        ? `${name}: none`
        : `${name}: ${plain(lengthMm, 1)} x ${plain(widthMm, 1)} x ${plain(heightMm, 1)}`,
    )
    .join("\n");

const rows: readonly (readonly [string, (sizing: Sizing, plan: Plan) => string])[] = [
  ["planned run", (_, plan) => plannedWords(plan)],
  ["water expected", ({ demand }) => figureInSentence(demand, "own-unit") ?? "not known"],
  ["water that suffices", ({ bound }) => need(bound)],
  ["tanks, mm", sizesOf],
  ["tanks hold, of what is needed", ({ fit }) => (fit === null ? "no tanks" : heldOf(fit))],
  ["do they serve?", ({ fit }) => (fit === null ? "no tanks" : fitInAWord(fit))],
  ["water lasts", ({ endurance }) => figureInSentence(endurance.waterLasts) ?? "not known"],
  ["fuel lasts", ({ endurance }) => figureInSentence(endurance.fuelLasts) ?? "not known"],
  [
    "fire ends first",
    ({ endurance }) =>
      endurance.fuelEndsFirst === null ? "not known" : `in ${ofHundred(endurance.fuelEndsFirst)} of 100 runs`,
  ],
  ["fuel tank for it", ({ fuel }) => need(fuel.tankMl)],
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
            <td>{words(left[2], left[1])}</td>
            <td>{words(right[2], right[1])}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
