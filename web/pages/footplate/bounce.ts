import { useEffect, useLayoutEffect, useRef } from "preact/hooks";

/** Where and when a finger came down, by the browser's own stamp of it. */
export interface Touch {
  atMs: number;
  x: number;
  y: number;
}

export const touchOf = ({ timeStamp, clientX, clientY }: MouseEvent): Touch => ({
  atMs: timeStamp,
  x: clientX,
  y: clientY,
});

/** A wet thumb's second touch falls about where the first did: within its own breadth, px. */
const BREADTH_PX = 64;

export const isBounce = (first: Touch, second: Touch, withinMs: number): boolean =>
  second.atMs - first.atMs < withinMs && Math.hypot(second.x - first.x, second.y - first.y) < BREADTH_PX;

/** After a sheet is left nobody taps at its place so soon; after one is opened a practised thumb may sooner. */
const LEFT_MS = 350;
export const OPENED_MS = 200;

/**
 * Swallows the second touch of a bounce where the first changed what lies under the finger.
 * @param sheet what lies open over the page, by name
 * @param aside what stands above the keys and goes when it is tapped, by name; what comes by itself moves no key
 */
export function useBounceGuard(sheet: string, aside: string): void {
  const last = useRef<(Touch & { onAside: boolean }) | null>(null);
  const changing = useRef<{ touch: Touch | null; withinMs: number } | null>(null);
  const left = useRef(sheet);
  useEffect(() => {
    const clicked = (event: MouseEvent) => {
      // the keyboard's clicks have no place
      if (event.detail === 0) return;
      const touch = touchOf(event);
      const guard = changing.current;
      if (guard?.touch && isBounce(guard.touch, touch, guard.withinMs)) {
        event.preventDefault();
        event.stopImmediatePropagation();
        return;
      }
      const onAside = event.target instanceof Element && event.target.closest(".asides") !== null;
      last.current = { ...touch, onAside };
    };
    addEventListener("click", clicked, { capture: true });
    return () => removeEventListener("click", clicked, { capture: true });
  }, []);
  useLayoutEffect(() => {
    changing.current = { touch: last.current, withinMs: left.current === "" ? OPENED_MS : LEFT_MS };
    left.current = sheet;
  }, [sheet]);
  useLayoutEffect(() => {
    if (last.current?.onAside) changing.current = { touch: last.current, withinMs: LEFT_MS };
  }, [aside]);
}
