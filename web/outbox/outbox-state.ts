import { computed, signal } from "@preact/signals";
import { shelf } from "./database.ts";
import { keptHereOnly } from "./records.ts";
import { type Contact, tellTabs } from "./tab-channel.ts";

/** Shown on every Footplate: what is kept here and not sent, what the server refused, and when it last answered. */
export const waiting = signal(0);
export const refusedHere = signal(0);
export const contact = signal<Contact>({ lastMs: null, trouble: null });
export const inContact = computed(() => contact.value.trouble === null && contact.value.lastMs !== null);

export async function countWaiting(): Promise<void> {
  const { waiting: unsent, refused } = await keptHereOnly();
  waiting.value = unsent;
  refusedHere.value = refused;
}

export async function recallContact(): Promise<void> {
  const lastMs = (await (await shelf("kept")).get("last contact")) as number | undefined;
  if (contact.value.lastMs === null && lastMs !== undefined) contact.value = { lastMs, trouble: null };
}

export function hadContact(): void {
  const now: Contact = { lastMs: Date.now(), trouble: null };
  contact.value = now;
  tellTabs({ what: "contact", contact: now });
  shelf("kept", "readwrite")
    .then((kept) => kept.put(now.lastMs, "last contact"))
    .catch(() => undefined);
}

export function hadTrouble(trouble: NonNullable<Contact["trouble"]>): void {
  contact.value = { ...contact.value, trouble };
  tellTabs({ what: "contact", contact: contact.value });
}
