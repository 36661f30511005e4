import type { Problem } from "../../src/logbook/problems.ts";
import type { Draft } from "./draft.ts";
import { halfGiven } from "./half-given.ts";
import { beginFields, steamingFurtherFields } from "./steaming-fields.ts";
import { unreadable } from "./unreadable.ts";

/** What is asked of a steaming beside the track. */
export const particularsFields = [...beginFields, ...steamingFurtherFields];

/** What is wrong with it as typed. */
export const particularsProblems = (draft: Draft): Problem[] => [
  ...unreadable(particularsFields, draft),
  ...halfGiven(draft),
];
