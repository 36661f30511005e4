import { useSignal } from "@preact/signals";
import type { Book } from "../../../src/care/book-schema.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { addresses } from "../../api/addresses.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import { fieldNow } from "../../forms/field-now.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { Loading } from "../../parts/loading.tsx";
import { Notice } from "../../parts/notice.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { fitterAddress } from "../../room-addresses.ts";
import { route } from "../../route.ts";
import { dateInWords } from "../../words/time.ts";
import { FittingList } from "./fitting-list.tsx";
import { FittingView } from "./fitting-view.tsx";
import { JobList } from "./job-list.tsx";

/** Which fittings want packing, and when: of one engine, chosen where there are several. */
export default function FitterPage() {
  const { loaded, reload } = useLoaded<Locomotive[]>(addresses.locomotives);
  const { value: engines, refusal } = loaded.value;
  if (engines === null) return <Loading what="engines" refusal={refusal} retry={() => void reload()} />;
  const { id } = route.value;
  const only = engines.length === 1 ? engines[0] : undefined;
  const engine = id === null ? only : engines.find((one) => one.id === id);
  if (engine === undefined) return <ChooseEngine engines={engines} missing={id} />;
  return <EngineBook key={engine.id} engine={engine} onChanged={reload} />;
}

function ChooseEngine({ engines, missing }: { engines: readonly Locomotive[]; missing: string | null }) {
  return (
    <>
      <h1>Fitter's book</h1>
      {missing !== null && <p>There is no engine {missing}.</p>}
      {engines.length === 0 ? (
        <p class="lead">
          No engine stands in the shed yet. <a href="#/shed">Add one there</a>, and her fittings are listed
          here.
        </p>
      ) : (
        <ul class="plain-list">
          {engines.map((engine) => (
            <li key={engine.id}>
              <a href={fitterAddress(engine.id)}>{engine.name}</a>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function EngineBook({ engine, onChanged }: { engine: Locomotive; onChanged: () => Promise<unknown> }) {
  const { loaded, reload } = useLoaded<Book>(furtherAddresses.book(engine.id));
  const done = useSignal<string | null>(null);
  const { value: book, refusal } = loaded.value;
  if (book === null) return <Loading what="Fitter's book" refusal={refusal} retry={() => void reload()} />;
  const { query } = route.value;
  const asked = query.get("fitting");
  const fitting = book.fittings.find((one) => one.fitting.id === asked);
  const finished = (words: string) => {
    done.value = words;
    void reload();
    void onChanged();
  };
  const common = { engine, book, onDone: finished };
  const kept = <div role="status">{done.value !== null && <Notice grade="done" word={done.value} />}</div>;
  return (
    <>
      {query.has("jobs") ? (
        <JobList {...common} />
      ) : fitting === undefined ? (
        <FittingList {...common} kept={kept} missing={asked} />
      ) : (
        <FittingView key={fitting.fitting.id} {...common} care={fitting} kept={kept} />
      )}
      <Cautions />
      <TitleBlock
        cells={[
          ["Sheet", <strong key="name">Fitter's book</strong>],
          ["Engine", engine.name],
          ...(query.has("jobs") ? [["Made out on", dateInWords(fieldNow())] as const] : []),
          ["Logged in steam", `${book.hours.toFixed(1)} h`],
          ["Fittings", String(book.fittings.length)],
          ...(fitting === undefined ? [] : [["Fitting", fitting.fitting.name] as const]),
        ]}
      />
    </>
  );
}
