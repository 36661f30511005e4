import type { Warning } from "../report-schema.ts";

/** What in the log is in question, without the sentence for it: at the tap it is asked in fewer words than on the sheet. */
export type Question = Omit<Warning, "text">;
