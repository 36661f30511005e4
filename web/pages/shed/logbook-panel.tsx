import { useSignal } from "@preact/signals";
import { addresses } from "../../api/addresses.ts";
import { asRefusal, callWithText } from "../../api/client.ts";
import type { ImportOutcome } from "../../api/shapes.ts";
import { type ChosenFile, countsInWords, LogbookPreview } from "./logbook-preview.tsx";

export function LogbookPanel({ onDone }: { onDone: (words: string) => void }) {
  const chosen = useSignal<ChosenFile | null>(null);
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

  const add = async (file: ChosenFile) => {
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
          <LogbookPreview
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
