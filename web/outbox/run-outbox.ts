import { Refusal } from "../api/client.ts";
import { waitMs } from "./backoff.ts";
import {
  departs,
  epochNow,
  keepClock,
  learnOffset,
  lookAtClock,
  recallClock,
  unmeasuredEpoch,
} from "./clock.ts";
import { outbox } from "./database.ts";
import { forgetClocks } from "./forget-clocks.ts";
import { giveLeaseBack, takeLease } from "./lease.ts";
import {
  contact,
  countWaiting,
  hadContact,
  hadTrouble,
  recallContact,
  refusedHere,
  waiting,
} from "./outbox-state.ts";
import { reachServer, sendAll } from "./sender.ts";
import { hearTabs } from "./tab-channel.ts";
import { unkept } from "./unkept.ts";

const LEASE = "sending";
/** With nothing to send, the server is asked this often whether it still answers. */
const IDLE_MS = 10_000;
/** Another tab sends: look again whether it still does. */
const OTHERS_MS = 1500;

let timer: ReturnType<typeof setTimeout> | undefined;
let sending = false;
let again = false;
let failures = 0;
let started = false;

/** Something was written: it is sent at once, or as soon as the server has answered again. */
function wakeSender(): void {
  countWaiting().catch(() => undefined);
  if (failures === 0) schedule(0);
}

/** Tries at once, whatever was going wrong. */
export function tryNow(): void {
  failures = 0;
  schedule(0);
}

function schedule(inMs: number): void {
  if (!started) return;
  clearTimeout(timer);
  timer = setTimeout(() => void run(), inMs);
}

async function run(): Promise<void> {
  if (sending) {
    again = true;
    return;
  }
  sending = true;
  again = false;
  let nextMs = IDLE_MS;
  try {
    if (await takeLease(LEASE)) {
      await reachServer();
      hadContact();
      await sendAll(() => takeLease(LEASE));
      hadContact();
      failures = 0;
    } else {
      nextMs = OTHERS_MS;
    }
    await countWaiting();
  } catch (error) {
    failures++;
    // anything but an answer of the server is the store's failing; it may do when it is opened anew
    if (!(error instanceof Refusal)) outbox.forget();
    hadTrouble(troubleOf(error));
    nextMs = waitMs(failures, Math.random());
  } finally {
    sending = false;
    schedule(again ? 0 : nextMs);
  }
}

function troubleOf(error: unknown): NonNullable<typeof contact.value.trouble> {
  if (!(error instanceof Refusal)) return "no-store";
  if (error.status === 401) return "not-paired";
  if (error.code === "view-only") return "view-only";
  return error.status === 0 || error.status >= 500 ? "no-answer" : "refused";
}

/** What another tab has measured; the tabs of a browser share the phone's clock. */
async function takeOffset(offsetMs: number, roundTripMs: number): Promise<void> {
  if (unmeasuredEpoch() === null && !departs(offsetMs, roundTripMs)) return;
  await learnOffset(offsetMs, roundTripMs, epochNow());
}

/** Sends in the background for as long as the page is open. @throws where the browser denies a store */
export async function startOutbox(): Promise<void> {
  if (started) return;
  started = true;
  hearTabs((word) => {
    if (word.what === "written") wakeSender();
    if (word.what === "contact") contact.value = word.contact;
    if (word.what === "clock") takeOffset(word.offsetMs, word.roundTripMs).catch(() => undefined);
  });
  const look = () => {
    lookAtClock()
      .then((jumpMs) => {
        if (jumpMs !== 0) tryNow();
      })
      .catch(() => undefined);
  };
  setInterval(look, 1000);
  addEventListener("online", tryNow);
  addEventListener("pageshow", tryNow);
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) return void keepClock().catch(() => undefined);
    look();
    tryNow();
  });
  addEventListener("pagehide", () => void giveLeaseBack(LEASE).catch(() => undefined));
  addEventListener("beforeunload", (event) => {
    if (waiting.value + refusedHere.value + unkept.value.length > 0) event.preventDefault();
  });
  schedule(0);
  // known to the other tabs too, so that whichever sends can set right what is tapped here
  await keepClock();
  await Promise.all([recallClock(), recallContact(), countWaiting()]);
  await forgetClocks();
}
