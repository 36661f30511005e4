import { useSignal } from "@preact/signals";
import { addresses } from "../../api/addresses.ts";
import { asRefusal, callWithText, type Refusal } from "../../api/client.ts";
import type { ImportOutcome } from "../../api/shapes.ts";
import { Notice } from "../../parts/notice.tsx";
import { ProblemList, Refused } from "../../parts/refused.tsx";

/** A file that was chosen and what the server says of it; nothing is written until it is told to. */
interface Chosen {
  name: string;
  text: string;
  outcome: ImportOutcome | null;
  refusal: Refusal | null;
}

export function LogbookPanel({ onDone }: { onDone: (words: string) => void }) {
  const chosen = useSignal<Chosen | null>(null);
  const reading = useSignal(false);
  const over = useSignal(false);

  const look = async (file: File | undefined) => {
    if (file === undefined) return;
    reading.value = true;
    const text = await file.text();
    try {
      const outcome = await callWithText<ImportOutcome>("POST", addresses.logbookPreview, text);
      chosen.value = { name: file.name, text, outcome, refusal: null };
    } catch (error) {
      chosen.value = { name: file.name, text, outcome: null, refusal: asRefusal(error) };
    }
    reading.value = false;
  };

  const add = async (file: Chosen) => {
    reading.value = true;
    try {
      const outcome = await callWithText<ImportOutcome>("POST", addresses.logbook, file.text);
      chosen.value = null;
      onDone(`${file.name} is in: ${countsInWords(outcome)}.`);
    } catch (error) {
      chosen.value = { ...file, refusal: asRefusal(error) };
    }
    reading.value = false;
  };

  return (
    <section
      class={`ruled logbook ${over.value ? "over" : ""}`}
      aria-labelledby="logbook-title"
      onDragOver={(event) => {
        event.preventDefault();
        over.value = true;
      }}
      onDragLeave={() => {
        over.value = false;
      }}
      onDrop={(event) => {
        event.preventDefault();
        over.value = false;
        void look(event.dataTransfer?.files[0]);
      }}
    >
      <h2 id="logbook-title">Logbook files</h2>
      <div class="actions">
        <label class="button file">
          Bring in a file
          <input
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              void look(event.currentTarget.files?.[0]);
              event.currentTarget.value = "";
            }}
          />
        </label>
        <a class="button" href={addresses.logbook} download>
          Save all to a file
        </a>
      </div>
      <p class="hint">Or drop a file here. You see what it would add before anything is written.</p>
      <div aria-live="polite">
        {reading.value && <p class="loading">Reading it</p>}
        {chosen.value !== null && (
          <Preview
            chosen={chosen.value}
            busy={reading.value}
            onAdd={(file) => void add(file)}
            onLeave={() => {
              chosen.value = null;
            }}
          />
        )}
      </div>
    </section>
  );
}

interface PreviewProperties {
  chosen: Chosen;
  busy: boolean;
  onAdd: (file: Chosen) => void;
  onLeave: () => void;
}

function Preview({ chosen, busy, onAdd, onLeave }: PreviewProperties) {
  const { name, outcome, refusal } = chosen;
  const problems = outcome?.problems ?? [];
  return (
    <div class="preview">
      <h3>{name}</h3>
      {refusal !== null && <Refused word="Nothing was added" refusal={refusal} />}
      {outcome !== null && problems.length > 0 && (
        <Notice
          grade="danger"
          word={`${problems.length === 1 ? "One problem" : `${problems.length} problems`}; nothing was added.`}
        >
          Mend the file and bring it in again.
          <ProblemList problems={problems} />
        </Notice>
      )}
      {outcome !== null && <Counts outcome={outcome} />}
      <div class="actions">
        {outcome !== null && problems.length === 0 && (
          <button type="button" class="primary" disabled={busy} onClick={() => onAdd(chosen)}>
            Add it
          </button>
        )}
        <button type="button" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </div>
  );
}

const countNames = [
  ["locomotives", "engine", "engines"],
  ["steamings", "steaming", "steamings"],
  ["entries", "entry", "entries"],
  ["services", "service", "services"],
] as const;

function Counts({ outcome }: { outcome: ImportOutcome }) {
  return (
    <table>
      <caption class="unseen">What the file would add</caption>
      <thead>
        <tr>
          <th scope="col">Of the file</th>
          <th scope="col">new</th>
          <th scope="col">here already</th>
          <th scope="col">here with other content</th>
        </tr>
      </thead>
      <tbody>
        {countNames.map(([key, , many]) => (
          <tr key={key}>
            <th scope="row">{many}</th>
            <td>{outcome[key].added}</td>
            <td>{outcome[key].same}</td>
            <td>{outcome[key].differs}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function countsInWords(outcome: ImportOutcome): string {
  const added = countNames.flatMap(([key, one, many]) => {
    const count = outcome[key].added;
    return count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
  });
  return added.length === 0 ? "all of it was here already" : `${added.join(", ")} added`;
}
