import { useSignal } from "@preact/signals";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import type { Device } from "../../api/shapes.ts";
import { keepToken } from "../../api/token.ts";
import { tryNow } from "../../outbox/run-outbox.ts";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { route } from "../../route.ts";

/** The code that the server shows, once. */
export function PairingForm({ onPaired }: { onPaired: (may: Device["may"]) => void }) {
  const code = useSignal(route.value.query.get("code") ?? "");
  const name = useSignal("");
  const refused = useSignal<Refusal | null>(null);
  const pair = async () => {
    refused.value = null;
    try {
      const { token, may } = await call<{ token: string; may: Device["may"] }>(
        "POST",
        furtherAddresses.pairing,
        {
          code: code.value.trim(),
          name: name.value.trim() === "" ? "a phone" : name.value.trim(),
        },
      );
      keepToken(token);
      tryNow();
      onPaired(may);
    } catch (error) {
      refused.value = asRefusal(error);
    }
  };
  return (
    <form
      class="form pairing"
      noValidate
      aria-label="Pair this phone"
      onSubmit={(event) => {
        event.preventDefault();
        void pair();
      }}
    >
      <h2>Pair this phone</h2>
      {!isSecureContext && (
        <Notice grade="plain" word="This address is plain http:">
          whoever listens in this network can read what is sent, the phone's key too. Pair in a network you
          trust.
        </Notice>
      )}
      <div class="fields">
        <div class="field">
          <label for="pairing-code">Code that the server shows</label>
          <input
            id="pairing-code"
            type="text"
            inputMode="text"
            autocomplete="one-time-code"
            autocapitalize="off"
            value={code.value}
            onInput={(event) => {
              code.value = event.currentTarget.value;
            }}
          />
        </div>
        <div class="field">
          <label for="pairing-name">Name of this phone</label>
          <input
            id="pairing-name"
            type="text"
            value={name.value}
            onInput={(event) => {
              name.value = event.currentTarget.value;
            }}
          />
        </div>
      </div>
      {refused.value !== null && <Refused word="Not paired" refusal={refused.value} />}
      <div class="actions">
        <button type="submit" class="primary">
          Pair it
        </button>
      </div>
    </form>
  );
}

/** In a page that the phone may not see before. */
export default function PairHere() {
  return <PairingForm onPaired={() => location.reload()} />;
}
