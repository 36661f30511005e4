import { signal } from "@preact/signals";
import { keep, kept } from "../../preferences/kept.ts";
import { AskingBar } from "./asking-bar.tsx";
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
  const read = () => {
    answered();
    onRead();
  };
  return (
    <AskingBar
      kind="water-question"
      words="How high is the water?"
      keys={[
        ["Read it", read],
        ["Not now", answered],
      ]}
    >
      No level is written down.
    </AskingBar>
  );
}
