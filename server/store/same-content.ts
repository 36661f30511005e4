import { isDeepStrictEqual } from "node:util";

/** Whether what is kept (as JSON text) and what is given say the same, whatever the order of their keys. */
export function sameContent(kept: string, given: unknown): boolean {
  const text = JSON.stringify(given);
  return kept === text || isDeepStrictEqual(JSON.parse(kept), JSON.parse(text));
}
