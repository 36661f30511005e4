import { effect } from "@preact/signals";
import { token } from "../api/token.ts";
import { waitMs } from "../outbox/backoff.ts";
import { giveLeaseBack, takeLease } from "../outbox/lease.ts";
import { hearTabs, tellTabs } from "../outbox/tab-channel.ts";
import type { LiveEvent } from "./live-events.ts";

const LEASE = "following";
const RENEW_MS = 1500;
/** A server that refuses the stream (an unpaired phone, too many pages) is not asked more often than this after a while. */
const REFUSED_LONGEST_MS = 60_000;

type Hearer = (event: LiveEvent) => void;
const hearers = new Set<Hearer>();
let source: EventSource | null = null;
let timer: ReturnType<typeof setInterval> | undefined;
/** an event's number, so that a stream opened anew goes on where the last one ended */
let lastSeen: string | null = null;
let refusals = 0;
/** by the steady clock: not to be opened before */
let notBeforeMs = 0;

/** Hears what changes on the server. A browser has one stream, in whichever tab holds the lease, and its tabs share it. */
export function followLive(hearer: Hearer): () => void {
  hearers.add(hearer);
  start();
  return () => {
    hearers.delete(hearer);
    // the next page may follow in the same breath
    queueMicrotask(() => hearers.size === 0 && void stop());
  };
}

function start(): void {
  if (timer !== undefined || hearers.size === 0) return;
  timer = setInterval(() => void hold(), RENEW_MS);
  void hold();
}

const heard = (event: LiveEvent): void => {
  for (const hearer of hearers) hearer(event);
};
hearTabs((word) => {
  if (word.what !== "live") return;
  lastSeen = word.id ?? lastSeen;
  heard(word.event);
});

async function hold(): Promise<void> {
  const ours = await takeLease(LEASE).catch(() => true);
  if (hearers.size === 0) return;
  const closed = source === null || source.readyState === EventSource.CLOSED;
  if (ours && closed && performance.now() >= notBeforeMs) open();
  if (!ours) close();
}

function open(): void {
  const query = new URLSearchParams();
  if (token.value !== null) query.set("token", token.value);
  if (lastSeen !== null) query.set("lastEventId", lastSeen);
  source = new EventSource(`/api/live?${query}`);
  const tell = (event: LiveEvent, id: string) => {
    if (id !== "") lastSeen = id;
    heard(event);
    tellTabs({ what: "live", event, id: lastSeen });
  };
  const isFirst = lastSeen === null;
  const opened = source;
  source.addEventListener("error", () => {
    // while the server is away the browser tries again by itself; it gives up where it was answered with a refusal
    if (opened.readyState !== EventSource.CLOSED) return;
    notBeforeMs = performance.now() + waitMs(++refusals, Math.random(), REFUSED_LONGEST_MS);
  });
  source.addEventListener("open", () => {
    refusals = 0;
    // what changed between the reading of a page and this moment was told to nobody
    if (isFirst) tell({ of: "restart" }, "");
  });
  for (const of of ["entry", "steaming"] as const) {
    source.addEventListener(of, (message) =>
      tell({ of, ...JSON.parse(message.data) } as LiveEvent, message.lastEventId),
    );
  }
  source.addEventListener("restart", (message) => tell({ of: "restart" }, message.lastEventId));
}

function close(): void {
  source?.close();
  source = null;
}

async function stop(): Promise<void> {
  close();
  clearInterval(timer);
  timer = undefined;
  await giveLeaseBack(LEASE).catch(() => undefined);
}

addEventListener("pagehide", () => void stop());
// the page was put aside whole, and comes back as it was
addEventListener("pageshow", start);
// another token may be let in
effect(() => {
  if (token.value !== null) refusals = notBeforeMs = 0;
});
