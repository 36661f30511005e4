import { useSignal } from "@preact/signals";
import { useMemo, useRef } from "preact/hooks";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { newId } from "../../api/new-id.ts";
import type { Draft } from "../../forms/draft.ts";
import { FieldList } from "../../forms/field-list.tsx";
import { particularsProblems } from "../../forms/particulars.ts";
import { beginFields, steamingFurtherFields } from "../../forms/steaming-fields.ts";
import { measureAnew, rawNow, serverMsOf, serverNowMs } from "../../outbox/clock.ts";
import type { EngineHere } from "../../outbox/engines-here.ts";
import { keepSteaming } from "../../outbox/records.ts";
import { momentOf } from "../../outbox/stamp.ts";
import { oneGoesOn } from "../../outbox/steamings.ts";
import { Notice } from "../../parts/notice.tsx";
import { footplateAddress } from "../../route.ts";
import { type GoingOn, goingOnWords } from "./going-on.tsx";

interface Properties {
  of: EngineHere;
  /** one of an engine's that goes on, a hydraulic test aside: it has no fire */
  steamsAlready: (engineId: string) => Promise<GoingOn | undefined>;
  onBegun: (id: string) => void;
}

/** A steaming of an engine, with the particulars of her last one offered; it needs no server. */
export function BeginForm({ of: { engine, last }, steamsAlready, onBegun }: Properties) {
  const start = useMemo<Draft>(() => ({ purpose: "trial", ...last }), [last]);
  const draft = useSignal<Draft>(start);
  const tried = useSignal(false);
  const failure = useSignal<string | null>(null);
  const other = useSignal<GoingOn | undefined>(undefined);
  const busy = useRef(false);
  const problems = tried.value ? particularsProblems(draft.value) : [];
  const common = {
    form: "begin",
    draft: draft.value,
    problems,
    onDraft: (next: Draft) => {
      draft.value = next;
    },
  };
  const begin = async (ask?: typeof steamsAlready) => {
    tried.value = true;
    if (busy.current || particularsProblems(draft.value).length > 0) return;
    busy.current = true;
    const tappedMs = performance.now();
    try {
      other.value = draft.value.purpose === "cold-hold" ? undefined : await ask?.(engine.id);
      if (other.value !== undefined) return;
      // one that goes on keeps its clock
      if (!(await oneGoesOn(serverNowMs()))) measureAnew();
      const raw = rawNow(performance.now() - tappedMs);
      const id = newId(raw.phoneMs);
      const head = { ...draft.value, id, locomotiveId: engine.id, startedAt: momentOf(serverMsOf(raw)) };
      await keepSteaming(head as unknown as SteamingHead, engine, raw);
      onBegun(id);
    } catch (error) {
      failure.value = error instanceof Error ? error.message : String(error);
    } finally {
      busy.current = false;
    }
  };
  return (
    <form
      class="form begin"
      noValidate
      aria-label={`A steaming of ${engine.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void begin(steamsAlready);
      }}
    >
      {other.value === undefined ? (
        <button type="submit" class="key primary">
          Begin: {engine.name}
          <span class="sub">the clock starts now</span>
        </button>
      ) : (
        <div role="alert">
          <Notice grade="caution" word="She is in steam already:">
            {goingOnWords(other.value)}. Of one fire, a second steaming has only a part.
          </Notice>
          <div class="panel-keys">
            <a class="button key primary" href={footplateAddress(other.value.head.id)}>
              Go on with it
            </a>
            <button type="button" class="key" onClick={() => void begin()}>
              Begin another
            </button>
          </div>
        </div>
      )}
      {(problems.length > 0 || failure.value !== null) && (
        <Notice grade="danger" word="Not begun:">
          {problems.length > 0
            ? "a figure below is missing or cannot be read."
            : `this browser keeps nothing (${failure.value}). Private windows may deny it.`}
        </Notice>
      )}
      <FieldList {...common} fields={beginFields} />
      <details class="fold" open={Object.keys(last).length > 1}>
        <summary>
          Conditions, track and train <span class="unit">as last time; change what is not so</span>
        </summary>
        <FieldList {...common} fields={steamingFurtherFields} allOptional />
      </details>
    </form>
  );
}
