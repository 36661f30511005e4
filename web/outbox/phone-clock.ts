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
  /** whether the clock was set at its beginning, or the phone slept with a steady clock that stood still, nobody knows */
  unsure?: true;
  /** measured in this stretch; null: not yet */
  offsetMs: number | null;
  roundTripMs: number | null;
  /** when it was last known to last, by the phone's clock */
  seenMs?: number;
}

/** A wall clock that is further than this from the steady one was set, or the phone slept. */
const STEP_MS = 1000;
/** An answer that is further than this, and half its way, from the known offset tells of another clock (our choice). */
const DEPARTS_MS = 500;
/** A phone set ahead while no page of it was open seems away for that long, and no more than this share of it longer (our choice). */
const AWAY_SHARE = 0.25;

const leewayMs = (roundTripMs: number): number => roundTripMs / 2 + DEPARTS_MS;

export interface PhoneClock {
  epoch(): Epoch;
  epochs: readonly Epoch[];
  now(): { phoneMs: number; steadyMs: number; epoch: string };
  /** looks whether the clock was set since the last look; the jump in ms, else 0. @param slept the page was hidden since */
  look(slept?: boolean): number;
  /**
   * @param epoch in which it was measured
   * @param movedMs by how much the server's clock departs from it
   * @returns whether that is still the one that lasts; else nothing is learnt
   */
  learn(offsetMs: number, roundTripMs: number, epoch: string, movedMs?: number): boolean;
  /**
   * Whether an answer departs from the offset that was measured: then a stretch begins in which none is known. Where it
   * departs by more than this clock can have been set by unseen, the server's was set: the stretch goes on as measured.
   */
  departs(offsetMs: number, roundTripMs: number): boolean;
  /** by how much the server's clock was set since it was measured, ms; 0: it was not */
  movedMs(): number;
  /** the next answer is believed, whosever clock was set */
  measureAnew(): void;
}

/**
 * @param wall the clock that anybody may set, ms since 1970
 * @param steady one that only ever runs on, ms
 * @param mayHaveSlept whether the page was hidden since it was asked last
 */
export function phoneClock(
  wall: () => number,
  steady: () => number,
  newId: () => string,
  mayHaveSlept: () => boolean = () => false,
): PhoneClock {
  const sitting = newId();
  let anchorMs = wall() - steady();
  const epochs: Epoch[] = [];
  const begin = (jumpMs: number, unsure: boolean): Epoch => {
    const epoch: Epoch = {
      id: newId(),
      sitting,
      place: epochs.length,
      beganMs: wall(),
      jumpMs,
      ...(unsure ? { unsure: true } : {}),
      offsetMs: null,
      roundTripMs: null,
    };
    epochs.push(epoch);
    return epoch;
  };
  let current = begin(0, false);
  let movedMs = 0;
  const look = (slept = mayHaveSlept()): number => {
    const jumpMs = wall() - steady() - anchorMs;
    if (Math.abs(jumpMs) <= STEP_MS) return 0;
    anchorMs += jumpMs;
    current = begin(jumpMs, slept);
    movedMs = 0;
    return jumpMs;
  };
  return {
    epochs,
    epoch: () => current,
    now: () => {
      look();
      return { phoneMs: wall(), steadyMs: steady(), epoch: current.id };
    },
    look,
    learn: (offsetMs, roundTripMs, epoch, moved = 0) => {
      if (epoch !== current.id) return false;
      movedMs = moved;
      current.offsetMs = offsetMs;
      current.roundTripMs = roundTripMs;
      return true;
    },
    departs: (offsetMs, roundTripMs) => {
      const known = current.offsetMs;
      const by = offsetMs - (known ?? offsetMs);
      const allowedMs = leewayMs(roundTripMs);
      movedMs = Math.abs(by) > allowedMs + STEP_MS ? by : 0;
      if (known === null || movedMs !== 0 || Math.abs(by) <= allowedMs) return false;
      current = begin(-by, true);
      return true;
    },
    movedMs: () => movedMs,
    measureAnew: () => {
      if (movedMs !== 0) current = begin(-movedMs, false);
      movedMs = 0;
    },
  };
}

/** The way from the phone's clock to the server's. */
export interface Offset {
  offsetMs: number;
  /** measured in this stretch, or carried over from one of the same sitting across jumps that are known */
  sure: boolean;
}

/**
 * The offset in a stretch: measured in it, else carried over from the nearest stretch of the same sitting across the
 * jumps between, else from the last that was measured in any sitting. A jump of which nobody knows whether the phone
 * slept is taken for sleep where the clock ran ahead: that is by far the commoner.
 * @returns null where it was never measured
 */
export function offsetIn(epochs: readonly Epoch[], id: string): Offset | null {
  const asked = epochs.find((epoch) => epoch.id === id);
  if (asked === undefined) return null;
  const own = sittingOf(epochs, asked);
  const carried = carriedIn(own, asked);
  if (carried !== undefined) return { offsetMs: carried.offsetMs, sure: carried.sure };
  // sittings at the same time see the same jumps, so the last stretch is where they meet
  const last = own.at(-1) ?? asked;
  const nearest = offsetAt(epochs, last.beganMs);
  return nearest === null ? null : { offsetMs: carry(own, last, nearest, asked).offsetMs, sure: false };
}

const sittingOf = (epochs: readonly Epoch[], { sitting }: Epoch): Epoch[] =>
  epochs.filter((epoch) => epoch.sitting === sitting).sort((a, b) => a.place - b.place);

/** What was measured nearest in the sitting. */
const carriedIn = (own: readonly Epoch[], asked: Epoch) =>
  own
    .flatMap((epoch) => (epoch.offsetMs === null ? [] : [carry(own, epoch, epoch.offsetMs, asked)]))
    .sort((a, b) => Number(b.sure) - Number(a.sure) || a.over - b.over)[0];

const seenMsOf = ({ seenMs, beganMs }: Epoch): number => seenMs ?? beganMs;
export const lastSeenFirst = (epochs: readonly Epoch[]): Epoch[] =>
  [...epochs].sort((a, b) => seenMsOf(b) - seenMsOf(a) || b.place - a.place);

/**
 * What a stretch goes by while a steaming goes on: the offset that was gone by before, where the server's clock was
 * set since and not this one. Nobody sees what is done to a clock while no page is open. One that ran backwards was
 * set; one that was set ahead seems to have been away for that long; else it was the server's, which is the commoner
 * where a small computer has no clock of its own.
 * @param measured in that stretch
 * @returns the measured one else; by how much the server's clock departs from what is gone by, ms
 */
export function goneBy(
  epochs: readonly Epoch[],
  id: string,
  measured: { offsetMs: number; roundTripMs: number },
  nowMs: number,
): { offsetMs: number; movedMs: number } {
  const before = goneByBefore(epochs, id, nowMs);
  const byMs = measured.offsetMs - (before?.offsetMs ?? measured.offsetMs);
  const anew = { offsetMs: measured.offsetMs, movedMs: 0 };
  if (before === null || Math.abs(byMs) <= leewayMs(measured.roundTripMs) + STEP_MS) return anew;
  const { awayMs, offsetMs } = before;
  const wasSetAhead = byMs < 0 && awayMs + byMs > -STEP_MS && awayMs + byMs < AWAY_SHARE * awayMs;
  return awayMs < 0 || wasSetAhead ? anew : { offsetMs, movedMs: byMs };
}

/** For how long the clock was not watched since, ms; below 0: it ran backwards. Null where nothing was sure. */
function goneByBefore(epochs: readonly Epoch[], id: string, nowMs: number) {
  const asked = epochs.find((epoch) => epoch.id === id);
  if (asked === undefined) return null;
  const own = sittingOf(epochs, asked);
  const here = carriedIn(own, asked);
  if (here !== undefined) return here.sure ? { offsetMs: here.offsetMs, awayMs: 0 } : null;
  const [first = asked] = own;
  for (const last of lastSeenFirst(epochs)) {
    const there = last.sitting === asked.sitting ? undefined : carriedIn(sittingOf(epochs, last), last);
    if (there === undefined) continue;
    const now = carry(own, first, there.offsetMs, asked);
    const seenMs = seenMsOf(last);
    // another tab may be there still
    const awayMs = seenMs > nowMs ? nowMs - seenMs : Math.max(0, first.beganMs - seenMs);
    return there.sure && now.sure ? { offsetMs: now.offsetMs, awayMs } : null;
  }
  return null;
}

/** The best guess at a moment by the phone's clock of which nothing more is known: the next offset measured, else the last. */
export function offsetAt(epochs: readonly Epoch[], phoneMs: number): number | null {
  const measured = epochs.filter((epoch) => epoch.offsetMs !== null).sort((a, b) => a.beganMs - b.beganMs);
  return (measured.find((epoch) => epoch.beganMs >= phoneMs) ?? measured.at(-1))?.offsetMs ?? null;
}

/** An offset of one stretch of a sitting as it is in another one of it; `over` counts the jumps, later ones first. */
function carry(own: readonly Epoch[], from: Epoch, offsetMs: number, to: Epoch) {
  const [first, last] = from.place < to.place ? [from, to] : [to, from];
  const jumps = own.filter((epoch) => epoch.place > first.place && epoch.place <= last.place);
  const moved = jumps.reduce((sum, { jumpMs, unsure }) => sum + (unsure && jumpMs > 0 ? 0 : jumpMs), 0);
  return {
    offsetMs: from.place < to.place ? offsetMs - moved : offsetMs + moved,
    sure: jumps.every(({ unsure }) => unsure !== true),
    over: from.place < to.place ? jumps.length + 0.5 : jumps.length,
  };
}
