import { useSignal } from "@preact/signals";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { mayWrite } from "../../api/token.ts";
import { Refused } from "../../parts/refused.tsx";

interface Properties {
  onDone: (words: string) => void;
}

function useAct(act: () => Promise<void>) {
  const busy = useSignal(false);
  const refusal = useSignal<Refusal | null>(null);
  const start = async () => {
    busy.value = true;
    refusal.value = null;
    try {
      await act();
    } catch (error) {
      refusal.value = asRefusal(error);
    }
    busy.value = false;
  };
  return { busy, refusal, start };
}

export function AddDemonstration({ empty, onDone }: Properties & { empty: boolean }) {
  const { busy, refusal, start } = useAct(async () => {
    await call("POST", furtherAddresses.demonstration);
    onDone("The demonstration is in the shed.");
  });
  return (
    <section class="ruled">
      <h2>The demonstration</h2>
      <p>
        An invented engine with invented steamings, to try everything on. One tap takes all of it out again.
      </p>
      <button
        type="button"
        class={empty ? "primary" : "quiet"}
        disabled={busy.value}
        onClick={() => void start()}
      >
        {busy.value ? "Adding it" : "Start from the demonstration"}
      </button>
      {refusal.value !== null && <Refused word="Not added" refusal={refusal.value} />}
    </section>
  );
}

export function DemonstrationMark({ onDone }: Properties) {
  const { busy, refusal, start } = useAct(async () => {
    await call("DELETE", furtherAddresses.demonstration);
    onDone("The demonstration is out of the shed.");
  });
  return (
    <section class="demonstration-mark" aria-label="Demonstration">
      <p>
        <strong>Invented data.</strong> The engine marked “demonstration” and all her steamings are made up.
      </p>
      {mayWrite() && (
        <button type="button" disabled={busy.value} onClick={() => void start()}>
          {busy.value ? "Taking it out" : "Take the demonstration out"}
        </button>
      )}
      {refusal.value !== null && <Refused word="Not taken out" refusal={refusal.value} />}
    </section>
  );
}
