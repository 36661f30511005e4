import { z } from "zod";
import { identifier } from "../../src/logbook/bounds.ts";
import { entrySchema } from "../../src/logbook/entry.ts";
import type { Change } from "../store/changes.ts";
import type { Store } from "../store/store.ts";

/** Data of an `entry` event. */
const entryEventSchema = z.strictObject({
  steamingId: identifier,
  entryId: identifier,
  what: z.enum(["added", "corrected", "deleted"]),
  entry: entrySchema.optional().describe("as it is kept now; absent where it has been deleted since"),
});
type EntryEvent = z.infer<typeof entryEventSchema>;

/** Data of a `steaming` event. */
const steamingEventSchema = z.strictObject({
  steamingId: identifier,
  what: z.enum(["added", "changed", "deleted"]).describe("changed: its head or its traces"),
});
type SteamingEvent = z.infer<typeof steamingEventSchema>;

/** What a stream consists of. */
export const liveEventSchema = z
  .union([entryEventSchema, steamingEventSchema])
  .describe(
    "Data of the events `entry` and `steaming`, each with the number of its change as id. An event `restart` comes " +
      "where the number asked for is not of this database: all is to be read anew. A comment every 15 seconds.",
  );

const entryWords: Partial<Record<Change["what"], EntryEvent["what"]>> = {
  "entry-added": "added",
  "entry-corrected": "corrected",
  "entry-deleted": "deleted",
};

/** A change as the text of a server-sent event; empty for changes that nobody follows. */
export function eventsOf(store: Store, change: Change): string {
  const { steamingId, entryId } = change;
  if (steamingId === null) return "";
  const ofEntry = entryWords[change.what];
  if (ofEntry !== undefined && entryId !== null) {
    const entry = store.entries.get(steamingId, entryId);
    const data: EntryEvent = {
      steamingId,
      entryId,
      what: ofEntry,
      ...(entry === undefined ? {} : { entry }),
    };
    return eventText(change.seq, "entry", data);
  }
  const what = steamingWord(change);
  return what === null ? "" : eventText(change.seq, "steaming", { steamingId, what } satisfies SteamingEvent);
}

function steamingWord({ what, isNew }: Change): SteamingEvent["what"] | null {
  if (what === "steaming-removed") return "deleted";
  if (what === "steaming-kept") return isNew === 1 ? "added" : "changed";
  return what === "traces-added" ? "changed" : null;
}

/** One event; JSON holds no line ends of its own. */
export const eventText = (seq: number, event: string, data: object): string =>
  `id: ${seq}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`;
