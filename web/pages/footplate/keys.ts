import { useLayoutEffect } from "preact/hooks";

type Acts = Readonly<Record<string, (atMs: number) => void>>;

/**
 * Keys of a keyboard, or of a clicker in a pocket, which sends Page Down and Page Up. One that is held down acts once.
 * @param active whether they act now
 * @param inFields whether they act while a field has the focus: a letter is typed there, what a clicker sends is not
 */
export function useKeys(active: boolean, acts: Acts, inFields = false): void {
  useLayoutEffect(() => {
    if (!active) return;
    const pressed = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const { target } = event;
      if (!inFields && target instanceof HTMLElement && target.matches("input, textarea, select")) return;
      const act = acts[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      if (act === undefined) return;
      event.preventDefault();
      if (!event.repeat) act(event.timeStamp);
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  });
}
