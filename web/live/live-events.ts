import type { LogEntry } from "../outbox/database.ts";

/** What the server tells as it happens. */
export type LiveEvent =
  | {
      of: "entry";
      steamingId: string;
      entryId: string;
      what: "added" | "corrected" | "deleted";
      entry?: LogEntry;
    }
  | { of: "steaming"; steamingId: string; what: "added" | "changed" | "deleted" }
  /** something may have been missed: everything is to be read again */
  | { of: "restart" };
