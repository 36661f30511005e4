import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { followLive } from "../../live/live-stream.ts";

/** Entries that come together are fetched together, ms. */
const GATHERS_MS = 800;

/**
 * Brings a sheet up to date as its steaming goes on; the clock time of the last time, null where nothing came.
 * @param reload whether it came
 */
export function useGrowth(steamingId: string, reload: () => Promise<boolean>): string | null {
  const grown = useSignal<string | null>(null);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const unfollow = followLive((event) => {
      if (event.of !== "restart" && event.steamingId !== steamingId) return;
      timer ??= setTimeout(() => {
        timer = undefined;
        void reload().then((came) => {
          if (came && event.of === "entry") grown.value = new Date().toTimeString().slice(0, 8);
        });
      }, GATHERS_MS);
    });
    return () => {
      clearTimeout(timer);
      unfollow();
    };
  }, [steamingId, reload, grown]);
  return grown.value;
}
