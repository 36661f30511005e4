import { type BalanceInput, recordedMoves, type ToppingUp } from "./balance-factors.ts";
import type { MassReading } from "./mass-reading.ts";

/** Grown beyond so many of its standard uncertainty is no error of reading. */
const BEYOND = 5;
/** A boiler that comes to the boil, or loses its fire, throws its level about: left out, as part of its contents. */
const SLACK_PART = 0.02;
/** A feed is written down when it is done: one within so many seconds after a reading may have been seen by it. */
const WRITTEN_LATE_S = 90;

type Input = Pick<BalanceInput, "moves" | "pumpingS" | "pumpPrior">;

/** A reading, and what was put in until then, g: by the log, and at the most, for what was let out after it makes no rise. */
export interface Fed {
  reading: MassReading;
  putIn: number;
  putInAtMost: number;
}

export function fedUntil(input: Input, reading: MassReading): Fed {
  const putIn = recordedMoves(input, reading);
  const soon = recordedMoves(input, { atS: reading.atS + WRITTEN_LATE_S });
  return { reading, putIn, putInAtMost: Math.max(putIn, soon) };
}

/** Whether what stood in the boiler grew between two readings beyond their errors and what was put in. */
export function grew({ reading: before, putIn }: Fed, { reading: now, putInAtMost }: Fed): boolean {
  const put = putInAtMost - putIn;
  const rise = now.grams - before.grams - put - SLACK_PART * now.grams;
  if (rise <= 0) return false;
  const shared = now.shared.map(({ source, uGrams }) =>
    before.shared.reduce((left, other) => (other.source === source ? left - other.uGrams : left), uGrams),
  );
  const u = Math.hypot(before.uGrams, now.uGrams, ...shared, 0.03 * put);
  return rise > BEYOND * u;
}

/**
 * A first filling is all that stands in an empty boiler. Where the next two readings both stand above it, it went on top
 * of water that nobody wrote down; one reading alone may be the one misread.
 */
export function toppingUpOf(input: Input & Pick<BalanceInput, "readings">): ToppingUp | null {
  const [filling, first, second] = input.readings.filter(({ of }) => of === "contents");
  if (filling?.poured !== true || first === undefined || second === undefined) return null;
  const readings = [first, second] as const;
  const filled = fedUntil(input, filling);
  return readings.every((one) => one.poured !== true && grew(filled, fedUntil(input, one)))
    ? { filling, readings }
    : null;
}
