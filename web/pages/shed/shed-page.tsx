import { useSignal } from "@preact/signals";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Shed } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { Loading } from "../../parts/loading.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { units } from "../../preferences/units.ts";
import { goTo, sheetAddress } from "../../route.ts";
import { PutSteamingBack } from "../sheet/take-out-steaming.tsx";
import { AddDemonstration, DemonstrationMark } from "./demonstration.tsx";
import { EngineBlock } from "./engine-block.tsx";
import { EngineForm } from "./engine-form.tsx";
import { InSteamNow } from "./in-steam-now.tsx";
import { LogbookPanel } from "./logbook-panel.tsx";
import { SteamingForm } from "./steaming-form.tsx";

/** What the reader is writing at the moment, if anything. */
type Writing =
  | { form: "engine"; engine: Locomotive | null }
  | { form: "steaming"; engine: Locomotive }
  | null;

export default function ShedPage() {
  const { loaded, reload } = useLoaded<Shed>(furtherAddresses.shed);
  const writing = useSignal<Writing>(null);
  const done = useSignal<string | null>(null);
  const { value: shed, refusal } = loaded.value;

  const finished = (words: string) => {
    writing.value = null;
    done.value = words;
    void reload();
  };

  return (
    <>
      <div>
        <div class="page-head">
          <h1>Shed</h1>
          {mayWrite() && (
            <button
              type="button"
              class="quiet"
              onClick={() => {
                writing.value = { form: "engine", engine: null };
              }}
            >
              Add an engine
            </button>
          )}
        </div>
        <PutSteamingBack />
        <div role="status">{done.value !== null && <Notice grade="done" word={done.value} />}</div>
      </div>
      {shed === null ? (
        <Loading what="shed" refusal={refusal} retry={() => void reload()} />
      ) : (
        <>
          {refusal !== null && (
            <Refused word="Not brought up to date" refusal={refusal} retry={() => void reload()} />
          )}
          <InSteamNow shed={shed} onNews={reload} />
          <Form writing={writing.value} onDone={finished} onLeave={() => (writing.value = null)} />
          {shed.engines.length === 0 && writing.value === null && <Empty />}
          {shed.engines.some((engine) => engine.demonstration) && <DemonstrationMark onDone={finished} />}
          {shed.engines.map((engine) => (
            <EngineBlock
              key={engine.locomotive.id}
              engine={engine}
              onEdit={() => {
                writing.value = { form: "engine", engine: engine.locomotive };
              }}
              onSteam={() => {
                writing.value = { form: "steaming", engine: engine.locomotive };
              }}
            />
          ))}
          {mayWrite() && shed.demonstrationOffered && (
            <AddDemonstration empty={shed.engines.length === 0} onDone={finished} />
          )}
          <LogbookPanel onDone={finished} />
        </>
      )}
      <Cautions />
      <TitleBlock
        cells={[
          ["Sheet", <strong key="name">Shed</strong>],
          ["Engines", shed === null ? "" : shed.engines.length],
          [
            "Steamings",
            shed === null ? "" : shed.engines.reduce((sum, engine) => sum + engine.steamings.length, 0),
          ],
          ["Units", Object.values(units.value).join(", ")],
        ]}
      />
    </>
  );
}

interface FormProperties {
  writing: Writing;
  onDone: (words: string) => void;
  onLeave: () => void;
}

function Form({ writing, onDone, onLeave }: FormProperties) {
  if (writing === null) return null;
  if (writing.form === "engine") {
    return (
      <EngineForm
        key={writing.engine?.id ?? "new"}
        engine={writing.engine}
        onSaved={(name) => onDone(`${name} is saved.`)}
        onTakenOut={onDone}
        onLeave={onLeave}
      />
    );
  }
  return (
    <SteamingForm
      key={`steam ${writing.engine.id}`}
      engine={writing.engine}
      head={null}
      onSaved={(id) => goTo(sheetAddress(id))}
      onLeave={onLeave}
    />
  );
}

function Empty() {
  if (!mayWrite()) return <p class="lead">No engine stands here yet.</p>;
  return (
    <p class="lead">
      No engine stands here yet. Add yours, bring in a logbook file, or start from the demonstration to see
      what a test sheet looks like.
    </p>
  );
}
