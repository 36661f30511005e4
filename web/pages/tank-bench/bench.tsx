import { useSignal } from "@preact/signals";
import { useMemo, useRef } from "preact/hooks";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { fitStrip } from "../../../src/sizing/fit-words.ts";
import type { Layout } from "../../../src/sizing/layout.ts";
import { modelsOf } from "../../../src/sizing/models.ts";
import type { Plan } from "../../../src/sizing/plan-schema.ts";
import type { RunFigures } from "../../../src/sizing/run-figures.ts";
import { drawersOf } from "../../../src/sizing/section-drawing.ts";
import { sizeUp } from "../../../src/sizing/size.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { scaleRatio } from "../../../src/sizing/typed-length.ts";
import { typedProblems } from "../../../src/sizing/typed-plan.ts";
import { type Draft, valueAt } from "../../forms/draft.ts";
import { Notice } from "../../parts/notice.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { units } from "../../preferences/units.ts";
import { answerSentence } from "./answer-sentence.ts";
import { blankPlan } from "./blank-plan.ts";
import { DrawingView } from "./drawing-view.tsx";
import { leftPlan, useLeaving } from "./left-plan.ts";
import { ranged } from "./loss-range.ts";
import type { Editing } from "./measure-field.tsx";
import { MoreSection } from "./more-section.tsx";
import { placeWords } from "./place-words.ts";
import { type KeptPlan, PlanShelf } from "./plan-shelf.tsx";
import { plannedWords } from "./planned-words.ts";
import { CuttingTable, EnduranceResults, Group, TankResults, WaterResults } from "./results.tsx";
import { RunSection } from "./run-section.tsx";
import { SpaceSection } from "./space-section.tsx";
import { TanksSection } from "./tanks-section.tsx";
import { TemplatesView } from "./templates-view.tsx";
import { TradeOffChart } from "./trade-off-chart.tsx";

interface Properties {
  engine: Locomotive;
  runs: readonly RunFigures[];
  plans: readonly KeptPlan[];
  onPlansChanged: () => void;
}

interface Worked {
  plan: Plan;
  sizing: Sizing;
  layout: Layout | null;
}

/** The bench itself: what is typed on one side, what it comes to on the other, worked out here at every move. */
export function Bench({ engine, runs, plans, onPlansChanged }: Properties) {
  const left = useMemo(() => leftPlan(engine.id), [engine.id]);
  const drafted = useSignal<Draft>(left?.draft ?? { ...blankPlan(engine) });
  const named = useSignal(left?.name ?? "");
  const templates = useSignal(false);
  const [draft, name] = [drafted.value, named.value];
  const open = (plan: Draft, of: string) => {
    drafted.value = plan;
    named.value = of;
  };
  const problems = useMemo(() => typedProblems(draft), [draft]);
  const isPlan = problems.length === 0;
  const lastPlan = useRef<Plan>(blankPlan(engine));
  if (isPlan) lastPlan.current = draft as unknown as Plan;
  const plan = lastPlan.current;
  useLeaving(plan, name);
  const modelKey = JSON.stringify([plan.steamings, plan.plan, plan.spreadRelative]);
  // biome keeps watch over these: the key stands for all of the plan that the models read
  const models = useMemo(() => modelsOf(runs, plan), [runs, modelKey]);
  const worked: Worked = useMemo(() => ({ plan, ...sizeUp(engine, plan, models) }), [engine, plan, models]);
  const scaleText = valueAt(draft, "tanks.scale");
  const { sizing, layout } = worked;
  const solve = plan.tanks?.solve;
  const foundMm = sizing.fit?.solved?.mm ?? null;
  const editing: Editing = {
    draft,
    problems,
    scale: scaleRatio(typeof scaleText === "string" ? scaleText : "1:32") ?? 1 / 32,
    found:
      solve === undefined || foundMm === null
        ? null
        : { path: `tanks.water.${solve.tank}.${solve.dimension}`, mm: foundMm },
    onDraft: (next) => {
      drafted.value = next;
    },
  };
  const planned = plannedWords(plan);
  const sentence = answerSentence(sizing, planned);
  if (templates.value && layout !== null) {
    return (
      <TemplatesView
        engine={engine}
        layout={layout}
        bendFactor={plan.tanks?.bendFactor}
        onLeave={() => {
          templates.value = false;
        }}
      />
    );
  }
  return (
    <>
      <p class="lead" role="status">
        {sentence}
      </p>
      {(units.value.volume !== "ml" || units.value.length !== "mm") && (
        <p class="hint">
          Tanks are marked out in mm and filled in ml: whatever units are chosen, the bench tells both so. A
          length may be typed in inches.
        </p>
      )}
      {problems.length > 0 && (
        <Notice grade="caution" word="Not reckoned yet.">
          {problems[0]?.wanted === undefined
            ? ""
            : `The figures stand as they were. Wanted (${placeWords(problems[0].path)}): ${problems[0].wanted}.`}
        </Notice>
      )}
      <div class="bench" onFocusIn={clearOfStrip}>
        <div class="bench-inputs on-screen">
          <RunSection runs={runs} editing={editing} />
          <SpaceSection engine={engine} editing={editing} />
          <TanksSection editing={editing} />
          <MoreSection engine={engine} editing={editing} />
        </div>
        <div class="bench-results">
          {sizing.warnings
            // the sentence at the head says it already
            .filter(({ code }) => code !== "tanks-short" && code !== "tanks-of-no-use")
            .map(({ code, text }) => (
              <Notice key={code + text} grade="caution" word="Mind:">
                {text}
              </Notice>
            ))}
          {layout !== null && <Drawings layout={layout} />}
          <WaterResults sizing={sizing} />
          <TankResults sizing={sizing} />
          <EnduranceResults sizing={sizing} />
          {sizing.lagging !== null && layout !== null && (
            <Group title="Lagging">
              <p class="hint">
                {ranged(sizing.lagging.laggedW, 1, sizing.lagging.range95)} W lost as lagged,{" "}
                {ranged(sizing.lagging.bareW, 1, sizing.lagging.range95)} W bare.
              </p>
              <TradeOffChart
                lagging={sizing.lagging}
                laggingMm={layout.buildUp.laggingMm}
                surface={plan.tanks?.lagging?.cleadingSurface}
              />
            </Group>
          )}
        </div>
      </div>
      <p class="bench-strip on-screen" aria-hidden="true">
        {!isPlan ? "Not reckoned yet: see the field" : sizing.fit === null ? "" : fitStrip(sizing.fit)}
      </p>
      <CuttingTable sizing={sizing} />
      <div class="actions on-screen">
        <button
          type="button"
          disabled={sizing.cutting.length === 0}
          onClick={() => {
            templates.value = true;
          }}
        >
          Full-size templates to print
        </button>
      </div>
      <PlanShelf
        engine={engine}
        runs={runs}
        plans={plans}
        plan={isPlan ? plan : null}
        sizing={sizing}
        name={name}
        onName={(text) => {
          named.value = text;
        }}
        onFresh={() => open({ ...blankPlan(engine) }, "")}
        onOpen={(kept) => open({ ...kept.plan }, kept.name)}
        onChanged={onPlansChanged}
      />
      <TitleBlock
        cells={[
          ["Sheet", <strong key="name">Tank bench</strong>],
          ["Engine", engine.name],
          ["Plan", name === "" ? planned : `${name}, ${planned}`],
          ["Runs", sizing.runs.length],
        ]}
      />
    </>
  );
}

/** Room left between what is typed in and the strip. */
const CLEAR_PX = 12;

/** What is typed in comes out from under the strip that rides along. */
function clearOfStrip({ target }: FocusEvent): void {
  if (!(target instanceof Element) || !target.matches(":focus-visible")) return;
  const strip = document.querySelector(".bench-strip");
  if (strip === null) return;
  const under = target.getBoundingClientRect().bottom + CLEAR_PX - strip.getBoundingClientRect().top;
  if (under > 0) scrollBy(0, under);
}

function Drawings({ layout }: { layout: Layout }) {
  return (
    <section class="bench-drawings" aria-label="Drawings to scale">
      {drawersOf(layout).map((drawn, i) => (
        <DrawingView key={`drawing ${String(i)}`} drawn={drawn} />
      ))}
    </section>
  );
}
