import { signal } from "@preact/signals";
import { Mark } from "../../parts/mark.tsx";
import { keep, kept } from "../../preferences/kept.ts";
import type { Standing } from "./standing.ts";

/** The steamings that were asked already, the latest last. */
const asked = signal<readonly string[]>(kept("water-asked"));
const REMEMBERED = 20;

/** A run has begun, and nobody has said how high the water is. */
export const asksForWater = (steamingId: string, { level, laps, regulator, phase }: Standing): boolean =>
  level === null &&
  (laps > 0 || regulator === "open" || phase === "running") &&
  !asked.value.includes(steamingId);

/** Asked once: either answer is one. */
export function WaterQuestion({ steamingId, onRead }: { steamingId: string; onRead: () => void }) {
  const answered = () => {
    asked.value = [...asked.value, steamingId].slice(-REMEMBERED);
    keep("water-asked", asked.value);
  };
  return (
    <div class="doubt-bar water-question" role="status">
      <p>
        <Mark of="caution" /> <strong>How high is the water?</strong> No level is written down.
      </p>
      <button
        type="button"
        class="key"
        onClick={() => {
          answered();
          onRead();
        }}
      >
        Read it
      </button>
      <button type="button" class="key" onClick={answered}>
        Not now
      </button>
    </div>
  );
}
