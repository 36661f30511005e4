import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { footplate } from "../../preferences/footplate.ts";

/** Three places far apart, in order: rain and a pocket do not find them, a thumb does. */
const places = ["1", "2", "3"] as const;

export function Lock({ onUnlock }: { onUnlock: () => void }) {
  const next = useSignal(0);
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.focus(), []);
  const tapped = (place: number) => {
    if (place !== next.value) {
      next.value = 0;
      return;
    }
    next.value = place + 1;
    if (next.value === places.length) onUnlock();
  };
  return (
    <div
      class={`lock hand-${footplate.value.hand}`}
      role="dialog"
      aria-modal="true"
      aria-label="Locked"
      tabIndex={-1}
      ref={box}
    >
      {places.map((name, place) => (
        <button
          key={name}
          type="button"
          class={`key place-${name} ${next.value > place ? "tapped" : ""}`}
          onClick={() => tapped(place)}
        >
          {name}
        </button>
      ))}
      <p class="lock-word">
        <strong>Locked.</strong> Only the keys of a clicker write. Tap 1, 2, 3 in turn to go on.
      </p>
    </div>
  );
}
