import { useLayoutEffect } from "preact/hooks";
import { inContact } from "../outbox/outbox-state.ts";
import type { LiveEvent } from "./live-events.ts";
import { followLive } from "./live-stream.ts";

/** Hears what changes on the server, for as long as it answers. */
export function useLive(hear: (event: LiveEvent) => void): void {
  const isReached = inContact.value;
  // one page hears before anything can be told after the last one has left: the stream is handed on
  useLayoutEffect(() => (isReached ? followLive(hear) : undefined), [isReached, hear]);
}
