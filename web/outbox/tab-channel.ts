import type { LiveEvent } from "../live/live-events.ts";

/** What the tabs of one browser tell each other. */
export type TabWord =
  | { what: "written"; steamingId: string }
  | { what: "contact"; contact: Contact }
  /** the way from the phone's clock, which the tabs share, to the server's, as one of them has just measured it */
  | { what: "clock"; offsetMs: number; roundTripMs: number }
  /** `id`: the number of the event, from which another tab can go on */
  | { what: "live"; event: LiveEvent; id: string | null };

/** How things stand between this browser and the server. */
export interface Contact {
  /** the phone's clock at the server's last answer; null: none since this browser was set up */
  lastMs: number | null;
  /** why nothing is being sent, in words; null where all goes well */
  trouble: "no-answer" | "not-paired" | "view-only" | "refused" | "no-store" | null;
}

type Hearer = (word: TabWord) => void;
const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel("lapwater");
const hearers = new Set<Hearer>();
const hear = (word: TabWord): void => {
  for (const hearer of hearers) hearer(word);
};
channel?.addEventListener("message", (event: MessageEvent<TabWord>) => hear(event.data));

/** To every other tab; that something was written, to this one as well. */
export function tellTabs(word: TabWord): void {
  channel?.postMessage(word);
  if (word.what === "written") hear(word);
}

export function hearTabs(hearer: Hearer): () => void {
  hearers.add(hearer);
  return () => hearers.delete(hearer);
}
