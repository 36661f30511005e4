import { signal, useSignal } from "@preact/signals";
import type { Steaming, SteamingHead } from "../../../src/logbook/steaming.ts";
import { addresses } from "../../api/addresses.ts";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { goTo, sheetAddress } from "../../route.ts";
import { counted } from "../../words/counted.ts";
import { dateInWords } from "../../words/time.ts";

/** The steaming that was taken out last, whole, so that it can be put back. */
const takenOut = signal<Steaming | null>(null);

/** Takes a steaming out at once; the Shed then offers to put it back. */
export function TakeOutSteaming({ steaming }: { steaming: SteamingHead }) {
  const refusal = useSignal<Refusal | null>(null);
  const takeOut = async () => {
    try {
      const whole = await call<Steaming>("GET", addresses.steaming(steaming.id));
      await call("DELETE", addresses.steaming(steaming.id));
      takenOut.value = whole;
      goTo("#/shed");
    } catch (error) {
      refusal.value = asRefusal(error);
    }
  };
  return (
    <>
      <button type="button" onClick={() => void takeOut()}>
        Take this steaming out
      </button>
      {refusal.value !== null && <Refused word="Not taken out" refusal={refusal.value} />}
    </>
  );
}

export function PutSteamingBack() {
  const refusal = useSignal<Refusal | null>(null);
  const steaming = takenOut.value;
  if (steaming === null) return null;
  const putBack = async () => {
    try {
      await call("POST", addresses.steamings, steaming);
      takenOut.value = null;
      goTo(sheetAddress(steaming.id));
    } catch (error) {
      refusal.value = asRefusal(error);
    }
  };
  return (
    <Notice grade="done" word="Taken out:">
      the steaming of {dateInWords(steaming.startedAt)}
      {steaming.title === undefined ? "" : `, ${steaming.title}`},
      {counted(steaming.entries.length, "entry", "entries")}.{" "}
      <button type="button" onClick={() => void putBack()}>
        Put it back
      </button>
      {refusal.value !== null && <Refused word="Not put back" refusal={refusal.value} />}
    </Notice>
  );
}
