/**
 * A stretch of the phone's clock in which nobody set it. The server's time is the phone's plus `offsetMs`; where the
 * clock jumped by `jumpMs` at the beginning of a stretch, that offset fell by as much.
 */
export interface Epoch {
  id: string;
  /** the page's own sitting; stretches of one sitting follow each other by `place` */
  sitting: string;
  place: number;
  beganMs: number;
  jumpMs: number;
  /** measured in this stretch; null: not yet */
  offsetMs: number | null;
  roundTripMs: number | null;
}

/** A wall clock that is further than this from the steady one was set, or the phone slept. */
const STEP_MS = 1000;

export interface PhoneClock {
  epoch(): Epoch;
  epochs: readonly Epoch[];
  now(): { phoneMs: number; steadyMs: number; epoch: string };
  /** looks whether the clock was set since the last look; the jump in ms, else 0 */
  look(slept: boolean): number;
  learn(offsetMs: number, roundTripMs: number): void;
}

/**
 * @param wall the clock that anybody may set, ms since 1970
 * @param steady one that only ever runs on, ms
 */
export function phoneClock(wall: () => number, steady: () => number, newId: () => string): PhoneClock {
  const sitting = newId();
  let anchorMs = wall() - steady();
  const begin = (place: number, jumpMs: number): Epoch => ({
    id: newId(),
    sitting,
    place,
    beganMs: wall(),
    jumpMs,
    offsetMs: null,
    roundTripMs: null,
  });
  let current = begin(0, 0);
  const epochs = [current];
  const look = (slept: boolean): number => {
    const jumpMs = wall() - steady() - anchorMs;
    if (Math.abs(jumpMs) <= STEP_MS) return 0;
    anchorMs += jumpMs;
    // some steady clocks stand still while the phone sleeps: then the wall clock was right all along
    if (slept && jumpMs > 0) return 0;
    current = begin(epochs.length, jumpMs);
    epochs.push(current);
    return jumpMs;
  };
  return {
    epochs,
    epoch: () => current,
    now: () => {
      look(false);
      return { phoneMs: wall(), steadyMs: steady(), epoch: current.id };
    },
    look,
    learn: (offsetMs, roundTripMs) => {
      current.offsetMs = offsetMs;
      current.roundTripMs = roundTripMs;
    },
  };
}

/**
 * The way from the phone's clock to the server's in a stretch: measured in it, else carried over from the nearest
 * stretch of the same sitting across the jumps between, else from the last that was measured in any sitting.
 * @returns null where it was never measured
 */
export function offsetIn(epochs: readonly Epoch[], id: string): number | null {
  const asked = epochs.find((epoch) => epoch.id === id);
  if (asked === undefined) return null;
  if (asked.offsetMs !== null) return asked.offsetMs;
  const own = epochs.filter((epoch) => epoch.sitting === asked.sitting).sort((a, b) => a.place - b.place);
  const jumps = (after: number, upTo: number) =>
    own.filter((e) => e.place > after && e.place <= upTo).reduce((sum, e) => sum + e.jumpMs, 0);
  const later = own.find((epoch) => epoch.place > asked.place && epoch.offsetMs !== null);
  if (later?.offsetMs != null) return later.offsetMs + jumps(asked.place, later.place);
  const earlier = own.findLast((epoch) => epoch.place < asked.place && epoch.offsetMs !== null);
  if (earlier?.offsetMs != null) return earlier.offsetMs - jumps(earlier.place, asked.place);
  const others = epochs.filter((epoch) => epoch.offsetMs !== null).sort((a, b) => a.beganMs - b.beganMs);
  const nearest = others.find((epoch) => epoch.beganMs >= asked.beganMs) ?? others.at(-1);
  return nearest?.offsetMs ?? null;
}
