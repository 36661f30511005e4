import { signal } from "@preact/signals";
import { keep, kept } from "./kept.ts";

/** No code lets the pressure rise by more, in per cent (our choice). */
const LARGEST = 50;

const asLimit = (perCent: number | null): number | null =>
  perCent !== null && perCent > 0 && perCent <= LARGEST ? perCent / 100 : null;

/** How far the owner's code lets the safety valve's pressure rise, as a part of working pressure; null: as is usual. */
export const valveLimit = signal<number | null>(asLimit(Number(kept("valve-limit")[0] ?? 0)));

/** @param perCent above 0 and up to 50; anything else brings the usual limit back */
export function chooseValveLimit(perCent: number | null): void {
  valveLimit.value = asLimit(perCent);
  keep("valve-limit", valveLimit.value === null ? [] : [String(perCent)]);
}
