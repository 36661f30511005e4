import { signal } from "@preact/signals";
import { newId } from "../api/new-id.ts";
import { inOneGo, type RawTime, shelf, strict } from "./database.ts";
import { hiddenSince } from "./hidden-since.ts";
import { type Epoch, goneBy, type Offset, offsetAt, offsetIn, phoneClock } from "./phone-clock.ts";
import { oneGoesOn } from "./steamings.ts";

const clock = phoneClock(
  () => Date.now(),
  () => performance.now(),
  newId,
  hiddenSince(),
);
/** That a stretch lasts is written down this often. */
const SEEN_EVERY_MS = 10_000;
let others: readonly Epoch[] = [];

const allEpochs = (): Epoch[] => [...others, ...clock.epochs];
export const offsetOfEpoch = (id: string): Offset | null => offsetIn(allEpochs(), id);

/** Whether moments tapped now are by the server's clock as it was measured; else they are the best guess there is. */
export const clockChecked = signal(false);
const tell = () => {
  clockChecked.value = offsetOfEpoch(clock.epoch().id)?.sure === true;
};

/** Reads what other sittings of this browser, earlier ones and those of its other tabs, know of its clock. */
export async function recallClock(): Promise<void> {
  const own = new Set(clock.epochs.map((epoch) => epoch.id));
  others = (await (await shelf("clock")).getAll()).filter((epoch) => !own.has(epoch.id));
  tell();
}

/** Writes down what is known here of the clock, and until when, for whichever tab sends and for later sittings. */
export async function keepClock(): Promise<void> {
  tell();
  clock.epoch().seenMs = Date.now();
  await inOneGo(
    ["clock"],
    async (epochs) => {
      for (const epoch of clock.epochs) await epochs.put(epoch);
    },
    strict,
  );
}

/** The moment as the phone has it, with what is known of the server's clock. @param agoMs how long ago it was */
export function rawNow(agoMs = 0): RawTime {
  const { phoneMs, steadyMs, epoch } = clock.now();
  const offsetMs = offsetOfEpoch(epoch)?.offsetMs ?? null;
  return { phoneMs: phoneMs - agoMs, steadyMs: steadyMs - agoMs, epoch, offsetMs };
}

/** A raw moment by the server's clock as far as it is known, else by the phone's, ms since 1970. */
export const serverMsOf = (raw: RawTime): number =>
  raw.phoneMs +
  (offsetOfEpoch(raw.epoch)?.offsetMs ?? raw.offsetMs ?? offsetAt(allEpochs(), raw.phoneMs) ?? 0);

export const serverNowMs = (): number => serverMsOf(rawNow());
/** The stretch of the phone's clock that lasts, if nothing was measured in it yet. */
export const unmeasuredEpoch = (): string | null => {
  clock.look();
  const { id, offsetMs } = clock.epoch();
  return offsetMs === null ? id : null;
};
export const epochNow = (): string => clock.now().epoch;

/** By how much the server's clock was set while this one ran on, ms: times go on by this one. */
export const serverMovedMs = signal(0);

/**
 * Takes in what was measured. While a steaming goes on its times go on by the clock that they went by, though the
 * page was loaded anew.
 * @param epoch in which it was measured; false where the clock has been set since, and nothing was learnt
 */
export async function learnOffset(offsetMs: number, roundTripMs: number, epoch: string): Promise<boolean> {
  await recallClock();
  const measured = { offsetMs, roundTripMs };
  const gone = (await oneGoesOn(serverNowMs()))
    ? goneBy(allEpochs(), epoch, measured, Date.now())
    : { offsetMs, movedMs: 0 };
  clock.look();
  if (!clock.learn(gone.offsetMs, roundTripMs, epoch, gone.movedMs)) return false;
  serverMovedMs.value = gone.movedMs;
  await keepClock();
  return true;
}

/** Whether an answer of the server tells that this clock is another than the one that was measured. */
export function departs(offsetMs: number, roundTripMs: number): boolean {
  const does = clock.look() !== 0 || clock.departs(offsetMs, roundTripMs);
  serverMovedMs.value = clock.movedMs();
  return does;
}

/** A new steaming goes by the server's clock as it is now. */
export function measureAnew(): void {
  clock.measureAnew();
  serverMovedMs.value = 0;
}

/** Whether the clock was set since the last look: by how many ms, else 0. */
export async function lookAtClock(): Promise<number> {
  const jumpMs = clock.look();
  // a later sitting asks for how long nobody watched it
  const unseenMs = Date.now() - (clock.epoch().seenMs ?? 0);
  if (jumpMs !== 0 || unseenMs > SEEN_EVERY_MS) await keepClock();
  return jumpMs;
}
