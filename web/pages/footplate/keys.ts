import { useLayoutEffect } from "preact/hooks";

/**
 * Keys of a keyboard or a clicker in a pocket: while nothing is open over the page and no field has the focus.
 * A clicker sends Page Down and Page Up.
 */
export function useKeys(active: boolean, acts: Readonly<Record<string, () => void>>): void {
  useLayoutEffect(() => {
    if (!active) return;
    const pressed = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
      if (event.target instanceof HTMLElement && event.target.matches("input, textarea, select")) return;
      const act = acts[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      if (act === undefined) return;
      event.preventDefault();
      act();
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  });
}
