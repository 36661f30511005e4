import { useEffect } from "preact/hooks";

/** Keeps the screen on while the Footplate is in sight; browsers grant it to a secure address only. */
export function useWakeLock(): void {
  useEffect(() => {
    if (!isSecureContext || !("wakeLock" in navigator)) return;
    let held: WakeLockSentinel | null = null;
    const ask = () => {
      if (document.hidden) return;
      navigator.wakeLock.request("screen").then(
        (lock) => {
          held = lock;
        },
        // refused on a low battery: the screen then goes dark as usual
        () => undefined,
      );
    };
    ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      document.removeEventListener("visibilitychange", ask);
      void held?.release();
    };
  }, []);
}
