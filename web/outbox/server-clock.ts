/** One question of the server's clock: the moments of asking and of the answer by a steady clock, ms. */
export interface ClockAnswer {
  askedMs: number;
  answeredMs: number;
  /** the phone's wall clock at the answer */
  phoneMs: number;
  serverMs: number;
}

const QUESTIONS = 8;

/** Server's clock less the phone's, by the quickest answer: its half round trip is the most it can be wrong. */
export function offsetOf(answers: readonly ClockAnswer[]): { offsetMs: number; roundTripMs: number } | null {
  const quickest = [...answers].sort((a, b) => a.answeredMs - a.askedMs - (b.answeredMs - b.askedMs))[0];
  if (quickest === undefined) return null;
  const roundTripMs = quickest.answeredMs - quickest.askedMs;
  return { offsetMs: quickest.serverMs + roundTripMs / 2 - quickest.phoneMs, roundTripMs };
}

/** Asks eight times, one after the other. @throws what asking throws */
export async function measureOffset(ask: () => Promise<{ nowMs: number }>) {
  const answers: ClockAnswer[] = [];
  for (let i = 0; i < QUESTIONS; i++) {
    const askedMs = performance.now();
    const { nowMs } = await ask();
    answers.push({ askedMs, answeredMs: performance.now(), phoneMs: Date.now(), serverMs: nowMs });
  }
  return offsetOf(answers);
}
