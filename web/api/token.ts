import { signal } from "@preact/signals";
import { keep, kept } from "../preferences/kept.ts";

/** What a paired phone shows the server with every call; null where none is needed or none was given yet. */
export const token = signal<string | null>(kept("token")[0] ?? null);

export function keepToken(given: string): void {
  token.value = given;
  keep("token", [given]);
}
