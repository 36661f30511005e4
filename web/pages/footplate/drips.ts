import { signal } from "@preact/signals";
import type { RawTime } from "../../outbox/database.ts";
import { keep, kept } from "../../preferences/kept.ts";

/** A cup held under a fitting: from when, by the phone's clock. It outlives a reload. */
export interface Drip {
  steamingId: string;
  fitting: string;
  began: RawTime;
}

const recalled = (): Drip[] => kept("drips").map((text) => JSON.parse(text) as Drip);
export const drips = signal<readonly Drip[]>(recalled());

function set(all: readonly Drip[]): void {
  drips.value = all;
  keep(
    "drips",
    all.map((drip) => JSON.stringify(drip)),
  );
}

export const beginDrip = (drip: Drip): void => set([...drips.value, drip]);
export const endDrip = (drip: Drip): void => set(drips.value.filter((other) => other !== drip));
