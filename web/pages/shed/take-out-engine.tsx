import { useSignal } from "@preact/signals";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { addresses } from "../../api/addresses.ts";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { Refused } from "../../parts/refused.tsx";

interface Properties {
  engine: Locomotive;
  onDone: (words: string) => void;
}

/** An engine goes with all her steamings and cannot be called back by a tap, so a copy is offered first. */
export function TakeOutEngine({ engine, onDone }: Properties) {
  const { id, name } = engine;
  const sure = useSignal(false);
  const refusal = useSignal<Refusal | null>(null);
  const takeOut = async () => {
    try {
      await call("DELETE", addresses.locomotive(id));
      onDone(`${name} is out of the shed.`);
    } catch (error) {
      refusal.value = asRefusal(error);
    }
  };
  if (!sure.value) {
    return (
      <button
        type="button"
        class="as-link"
        onClick={() => {
          sure.value = true;
        }}
      >
        Take {name} out of the shed
      </button>
    );
  }
  return (
    <div class="notice caution">
      <p>
        This takes out {name} and all her steamings for good. Save a copy first: it can be brought in again.
      </p>
      <div class="actions">
        <a
          class="button"
          href={`${furtherAddresses.logbook}?locomotiveId=${encodeURIComponent(id)}`}
          download
        >
          Save a copy
        </a>
        <button type="button" class="danger" onClick={() => void takeOut()}>
          Take out {name}
        </button>
        <button
          type="button"
          onClick={() => {
            sure.value = false;
          }}
        >
          Leave her here
        </button>
      </div>
      {refusal.value !== null && <Refused word="Not taken out" refusal={refusal.value} />}
    </div>
  );
}
