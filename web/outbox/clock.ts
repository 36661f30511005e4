import { newId } from "../api/new-id.ts";
import { outbox, type RawTime, strict } from "./database.ts";
import { type Epoch, offsetIn, phoneClock } from "./phone-clock.ts";

const clock = phoneClock(
  () => Date.now(),
  () => performance.now(),
  newId,
);
let others: readonly Epoch[] = [];

const allEpochs = (): readonly Epoch[] => [...others, ...clock.epochs];
export const offsetOfEpoch = (id: string): number | null => offsetIn(allEpochs(), id);

/** Reads what earlier sittings of this browser knew of its clock. */
export async function recallClock(): Promise<void> {
  const own = new Set(clock.epochs.map((epoch) => epoch.id));
  others = (await (await outbox()).getAll("clock")).filter((epoch) => !own.has(epoch.id));
}

async function keepClock(): Promise<void> {
  const transaction = (await outbox()).transaction("clock", "readwrite", strict);
  for (const epoch of clock.epochs) await transaction.store.put(epoch);
  await transaction.done;
}

/** The moment as the phone has it, with what is known of the server's clock. @param agoMs how long ago it was */
export function rawNow(agoMs = 0): RawTime {
  const { phoneMs, steadyMs, epoch } = clock.now();
  return { phoneMs: phoneMs - agoMs, steadyMs: steadyMs - agoMs, epoch, offsetMs: offsetOfEpoch(epoch) };
}

/** A raw moment by the server's clock as far as it is known, else by the phone's, ms since 1970. */
export const serverMsOf = (raw: RawTime): number =>
  raw.phoneMs + (offsetOfEpoch(raw.epoch) ?? raw.offsetMs ?? 0);

export const serverNowMs = (): number => serverMsOf(rawNow());
export const offsetKnown = (): boolean => clock.epoch().offsetMs !== null;

export async function learnOffset(offsetMs: number, roundTripMs: number): Promise<void> {
  clock.learn(offsetMs, roundTripMs);
  await keepClock();
}

/** Whether the clock was set since the last look: by how many ms, else 0. */
export async function lookAtClock(slept: boolean): Promise<number> {
  const jumpMs = clock.look(slept);
  if (jumpMs !== 0) await keepClock();
  return jumpMs;
}
