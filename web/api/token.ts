import { signal } from "@preact/signals";
import { keep, kept } from "../preferences/kept.ts";

/** What a paired phone shows the server with every call; null where none is needed or none was given yet. */
export const token = signal<string | null>(kept("token")[0] ?? null);

export function keepToken(given: string): void {
  token.value = given;
  keep("token", [given]);
}

/** Whether this device came by a reading link and may only view, by the server's last answer. */
export const viewOnly = signal(kept("may")[0] === "view");

/** Whether this device may write: where it may not, no key is shown that does. */
export const mayWrite = (): boolean => !viewOnly.value;

/** @param may of an answer's head; null where it is not said */
export function heardMay(may: string | null): void {
  if (may === null || (may === "view") === viewOnly.value) return;
  viewOnly.value = may === "view";
  keep("may", [may]);
}
