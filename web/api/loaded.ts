import { type Signal, useSignal } from "@preact/signals";
import { useCallback, useEffect, useRef } from "preact/hooks";
import { fingerUp } from "../live/finger-up.ts";
import { asRefusal, callWithText, type Refusal } from "./client.ts";

/** What a page has of the server: the last good answer stays while a newer one is fetched or fails. */
export interface Loaded<Answer> {
  value: Answer | null;
  fetching: boolean;
  refusal: Refusal | null;
}

/**
 * GET of a path (POST where a body is given), again whenever either changes or `reload` is called; a path of
 * null fetches nothing. What comes is shown once no finger is on the page.
 */
export function useLoaded<Answer>(
  path: string | null,
  body?: string,
): {
  loaded: Signal<Loaded<Answer>>;
  /** whether it came */
  reload: () => Promise<boolean>;
} {
  const loaded = useSignal<Loaded<Answer>>({ value: null, fetching: path !== null, refusal: null });
  const asked = path === null ? null : `${path}\n${body ?? ""}`;
  const latest = useRef(asked);
  latest.current = asked;
  const reload = useCallback(async () => {
    if (path === null) return false;
    loaded.value = { ...loaded.peek(), fetching: true };
    try {
      const value = await callWithText<Answer>(body === undefined ? "GET" : "POST", path, body);
      await fingerUp();
      if (latest.current === asked) loaded.value = { value, fetching: false, refusal: null };
      return true;
    } catch (error) {
      await fingerUp();
      if (latest.current === asked) {
        loaded.value = { ...loaded.peek(), fetching: false, refusal: asRefusal(error) };
      }
      return false;
    }
  }, [path, body, asked, loaded]);
  useEffect(() => {
    loaded.value = { value: null, fetching: path !== null, refusal: null };
    void reload();
  }, [path, loaded, reload]);
  return { loaded, reload };
}
