import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import type { Device, PairingCode } from "../../api/shapes.ts";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { type Given, GivenPass } from "./given-pass.tsx";

interface Properties {
  devices: Device[];
  /** fetches the list of devices again */
  look: () => Promise<unknown>;
  onDone: (words: string) => void;
}

/** While a code is shown, the list is looked at so often for the device that takes it, ms. */
const LOOK_MS = 2000;

/** A code by which a phone may record, and a link by which others may read along. */
export function PairSection({ devices, look, onDone }: Properties) {
  const given = useSignal<Given | null>(null);
  const known = useSignal<readonly string[]>([]);
  const name = useSignal("");
  const busy = useSignal(false);
  const refusal = useSignal<Refusal | null>(null);

  const make = async (what: Given["what"]) => {
    busy.value = true;
    refusal.value = null;
    given.value = null;
    try {
      known.value = devices.map((device) => device.id);
      given.value = what === "code" ? await makeCode() : await makeReadingLink(name.value.trim());
      if (what === "link") {
        name.value = "";
        void look();
      }
    } catch (error) {
      refusal.value = asRefusal(error);
    }
    busy.value = false;
  };

  const untilMs = given.value?.what === "code" ? Date.parse(given.value.expiresAt) : 0;
  useEffect(() => {
    if (untilMs === 0) return;
    const timer = setInterval(() => {
      if (Date.now() < untilMs) void look();
      else given.value = null;
    }, LOOK_MS);
    return () => clearInterval(timer);
  }, [untilMs, look, given]);

  const newcomer = devices.find((device) => !known.value.includes(device.id));
  const taken = given.value?.what === "code" && newcomer !== undefined ? newcomer.name : null;
  useEffect(() => {
    if (taken === null) return;
    given.value = null;
    onDone(`${taken} is paired.`);
  }, [taken, given, onDone]);

  // a link whose reader was removed opens nothing more
  const reader = given.value?.what === "link" ? (newcomer?.id ?? null) : null;
  const readerBefore = useRef<string | null>(null);
  useEffect(() => {
    if (readerBefore.current !== null && reader === null) given.value = null;
    readerBefore.current = reader;
  }, [reader, given]);

  return (
    <section class="ruled" aria-labelledby="pair-title">
      <h2 id="pair-title">Let a device in</h2>
      <div class="ways-in">
        <div>
          <h3>A phone that records</h3>
          <p>A code that is good once, for ten minutes.</p>
          <button type="button" class="primary" disabled={busy.value} onClick={() => void make("code")}>
            Make a code
          </button>
        </div>
        <form
          aria-label="A reading link"
          onSubmit={(event) => {
            event.preventDefault();
            void make("link");
          }}
        >
          <h3>A reading link</h3>
          <p>Whoever has it sees all that is kept here and changes nothing, until you remove it above.</p>
          <div class="field">
            <label for="reader-name">For whom</label>
            <input
              id="reader-name"
              type="text"
              maxLength={60}
              autocomplete="off"
              value={name.value}
              onInput={(event) => {
                name.value = event.currentTarget.value;
              }}
            />
          </div>
          <button type="submit" disabled={busy.value}>
            Make a reading link
          </button>
        </form>
      </div>
      {refusal.value !== null && <NoPass refusal={refusal.value} />}
      {given.value !== null && taken === null && <GivenPass given={given.value} />}
    </section>
  );
}

const newCode = (may: Device["may"]) => call<PairingCode>("POST", furtherAddresses.pairingCodes, { may });

async function makeCode(): Promise<Given> {
  return { what: "code", ...(await newCode("record")) };
}

/** The code is used up here, so that the link holds the reader's own key and is good until it is removed. */
async function makeReadingLink(typed: string): Promise<Given> {
  const { code, address } = await newCode("view");
  const name = typed === "" ? "A reader" : typed;
  const { token } = await call<{ token: string }>("POST", furtherAddresses.pairing, { code, name });
  return { what: "link", name, address, link: `${address}/#/follow?token=${token}` };
}

function NoPass({ refusal }: { refusal: Refusal }) {
  if (refusal.code === "no-network") {
    return (
      <Notice grade="caution" word="No other device can reach this server yet:">
        {refusal.message}. With this machine in a network, end the server and start it by{" "}
        <code>npm start -- --lan</code>.
      </Notice>
    );
  }
  if (refusal.code === "only-at-server") {
    return (
      <Notice grade="plain" word="Not from this device:">
        {refusal.message}. Open this page there.
      </Notice>
    );
  }
  return <Refused word="Not made" refusal={refusal} />;
}
