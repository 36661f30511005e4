/** One question of the server's clock: the moments of asking and of the answer by a steady clock, ms. */
export interface ClockAnswer {
  askedMs: number;
  answeredMs: number;
  /** the phone's wall clock at the answer */
  phoneMs: number;
  serverMs: number;
}

export interface MeasuredOffset {
  offsetMs: number;
  roundTripMs: number;
}

const QUESTIONS = 8;

/** Server's clock less the phone's, by the quickest answer: its half round trip is the most it can be wrong. */
export function offsetOf(answers: readonly ClockAnswer[]): MeasuredOffset | null {
  const quickest = [...answers].sort((a, b) => a.answeredMs - a.askedMs - (b.answeredMs - b.askedMs))[0];
  if (quickest === undefined) return null;
  const roundTripMs = quickest.answeredMs - quickest.askedMs;
  return { offsetMs: quickest.serverMs + roundTripMs / 2 - quickest.phoneMs, roundTripMs };
}

type Ask = () => Promise<{ nowMs: number }>;

async function askOnce(ask: Ask): Promise<ClockAnswer> {
  const askedMs = performance.now();
  const { nowMs } = await ask();
  return { askedMs, answeredMs: performance.now(), phoneMs: Date.now(), serverMs: nowMs };
}

/** What one answer says of the offset. @throws what asking throws */
export const glimpseOffset = async (ask: Ask): Promise<MeasuredOffset | null> =>
  offsetOf([await askOnce(ask)]);

/** Asks eight times, one after the other. @throws what asking throws */
export async function measureOffset(ask: Ask): Promise<MeasuredOffset | null> {
  const answers: ClockAnswer[] = [];
  for (let i = 0; i < QUESTIONS; i++) answers.push(await askOnce(ask));
  return offsetOf(answers);
}
