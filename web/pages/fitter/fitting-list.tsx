import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { Book, FittingBook } from "../../../src/care/book-schema.ts";
import { missingFromStartingSet } from "../../../src/care/starting-set.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { addresses } from "../../api/addresses.ts";
import { mayWrite } from "../../api/token.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Refused } from "../../parts/refused.tsx";
import { fitterAddress } from "../../room-addresses.ts";
import { EngineFigures } from "./engine-figures.tsx";
import { StateMark } from "./state-mark.tsx";
import { SuspectSection } from "./suspect-section.tsx";

interface Properties {
  engine: Locomotive;
  book: Book;
  kept: ComponentChildren;
  /** a fitting that was asked for and is not there */
  missing: string | null;
  onDone: (words: string) => void;
}

/** All fittings of an engine, those in need first. */
export function FittingList({ engine, book, kept, missing, onDone }: Properties) {
  const inState = (state: string) => book.fittings.filter((one) => one.state === state).length;
  const unread = book.fittings.filter(({ sure }) => sure === "nothing known").length;
  return (
    <>
      <div>
        <div class="page-head">
          <h1>Fitter's book: {engine.name}</h1>
          <a class="button on-screen" href={fitterAddress(engine.id, { jobs: true })}>
            Before the next steaming
          </a>
        </div>
        {kept}
      </div>
      {missing !== null && <p>There is no fitting {missing} on this engine; here are those that are.</p>}
      <p class="lead">
        {book.fittings.length === 0
          ? `No fitting of ${engine.name} is listed yet.`
          : `${inState("attend")} to attend to, ${inState("watch") - unread} to watch, ${inState("sound")} sound${unread > 0 ? `; nothing is known of ${unread}` : ""}.`}
      </p>
      <ol class="fittings">
        {book.fittings.map((care) => (
          <FittingRow key={care.fitting.id} engineId={engine.id} care={care} />
        ))}
      </ol>
      <SuspectSection suspects={book.suspects} />
      <EngineFigures book={book} />
      <OfferUsual engine={engine} onDone={onDone} />
    </>
  );
}

function FittingRow({ engineId, care }: { engineId: string; care: FittingBook }) {
  const { fitting, state, sure, why, measureNext, since } = care;
  return (
    <li>
      <div class="fitting-name">
        <span>
          <StateMark state={state} />
          {sure === "nothing known" && <span class="soft"> nothing known</span>}
        </span>
        <a href={fitterAddress(engineId, { fitting: fitting.id })}>{fitting.name}</a>
        <span class="soft">
          {since.hours.toFixed(1)} h in steam{" "}
          {since.service === null ? "since the log began; no service recorded" : "since it was last done"}
        </span>
      </div>
      <div>
        <p>{why}</p>
        {measureNext !== null && <p class="soft">{measureNext}</p>}
      </div>
    </li>
  );
}

function OfferUsual({ engine, onDone }: Pick<Properties, "engine" | "onDone">) {
  const { sending, refusal, submit } = useSubmit();
  const opened = useSignal(engine.fittings.length === 0);
  const usual = missingFromStartingSet(engine);
  if (usual.length === 0 || !mayWrite()) return null;
  const add = async () => {
    const fittings = [...engine.fittings, ...usual];
    if (await submit("PUT", addresses.locomotive(engine.id), { ...engine, fittings })) {
      onDone(`${usual.length} fittings are added.`);
    }
  };
  return (
    <details class="fold on-screen" open={opened.value}>
      <summary>Usual fittings that are not listed</summary>
      <p>
        By her cylinders and pumps she would have, besides:{" "}
        {usual.map(({ name }) => name.toLowerCase()).join("; ")}. Take out what she has not under Edit in the
        Shed.
      </p>
      <button type="button" disabled={sending.value} onClick={() => void add()}>
        Add these {usual.length} fittings
      </button>
      {refusal.value !== null && <Refused word="Not added" refusal={refusal.value} />}
    </details>
  );
}
