import { asRefusal, type Refusal } from "../api/client.ts";
import { waitMs } from "./backoff.ts";
import { lookAtClock, recallClock } from "./clock.ts";
import { giveLeaseBack, takeLease } from "./lease.ts";
import { contact, countWaiting, hadContact, hadTrouble, recallContact, waiting } from "./outbox-state.ts";
import { reachServer, sendAll } from "./sender.ts";
import { hearTabs } from "./tab-channel.ts";

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
  void countWaiting();
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
  } catch (error) {
    failures++;
    const refusal = asRefusal(error);
    hadTrouble(troubleOf(refusal));
    nextMs = waitMs(failures, Math.random());
  }
  await countWaiting();
  sending = false;
  schedule(again ? 0 : nextMs);
}

function troubleOf(refusal: Refusal): NonNullable<typeof contact.value.trouble> {
  if (refusal.status === 401) return "not-paired";
  if (refusal.status === 403) return "view-only";
  return refusal.status === 0 || refusal.status >= 500 ? "no-answer" : "refused";
}

/** Sends in the background for as long as the page is open. */
export async function startOutbox(): Promise<void> {
  if (started) return;
  started = true;
  await Promise.all([recallClock(), recallContact(), countWaiting()]);
  hearTabs((word) => {
    if (word.what === "written") wakeSender();
    if (word.what === "contact") contact.value = word.contact;
  });
  let hidden = document.hidden;
  const look = () => {
    void lookAtClock(hidden).then((jumpMs) => {
      if (jumpMs !== 0) tryNow();
    });
    hidden = document.hidden;
  };
  setInterval(look, 1000);
  addEventListener("online", tryNow);
  addEventListener("pageshow", tryNow);
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) {
      hidden = true;
      look();
      tryNow();
    }
  });
  addEventListener("pagehide", () => void giveLeaseBack(LEASE));
  addEventListener("beforeunload", (event) => {
    if (waiting.value > 0) event.preventDefault();
  });
  schedule(0);
}
