import { useSignal } from "@preact/signals";
import { asRefusal, call, callWithText, type Refusal } from "../../api/client.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import type { ImportOutcome } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { saveFile } from "../../outbox/logbook-copy.ts";
import { Refused } from "../../parts/refused.tsx";
import { type ChosenFile, countsInWords, LogbookPreview } from "./logbook-preview.tsx";

export function LogbookPanel({ onDone }: { onDone: (words: string) => void }) {
  const chosen = useSignal<ChosenFile | null>(null);
  const reading = useSignal(false);
  const over = useSignal(false);
  const failed = useSignal<Refusal | null>(null);

  const look = async (file: File | undefined) => {
    if (file === undefined || !mayWrite()) return;
    reading.value = true;
    const text = await file.text();
    try {
      const outcome = await callWithText<ImportOutcome>("POST", furtherAddresses.logbookPreview, text);
      chosen.value = { name: file.name, text, outcome, refusal: null };
    } catch (error) {
      chosen.value = { name: file.name, text, outcome: null, refusal: asRefusal(error) };
    }
    reading.value = false;
  };

  const add = async (file: ChosenFile) => {
    reading.value = true;
    try {
      const outcome = await callWithText<ImportOutcome>("POST", furtherAddresses.logbook, file.text);
      chosen.value = null;
      onDone(`${file.name} is in: ${countsInWords(outcome)}.`);
    } catch (error) {
      chosen.value = { ...file, refusal: asRefusal(error) };
    }
    reading.value = false;
  };

  // by script and not by a link, which could not show a paired device's key
  const saveAll = async () => {
    reading.value = true;
    failed.value = null;
    try {
      const file = await call<object>("GET", furtherAddresses.logbook);
      saveFile("lapwater.logbook.json", JSON.stringify(file));
    } catch (error) {
      failed.value = asRefusal(error);
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
        {mayWrite() && (
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
        )}
        <button type="button" disabled={reading.value} onClick={() => void saveAll()}>
          Save all to a file
        </button>
      </div>
      {mayWrite() && (
        <p class="hint">Or drop a file here. You see what it would add before anything is written.</p>
      )}
      <div aria-live="polite">
        {reading.value && <p class="loading">Reading it</p>}
        {failed.value !== null && <Refused word="Not saved" refusal={failed.value} />}
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
