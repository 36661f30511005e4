/**
 * Chance that can be repeated: the same seed and stream name give the same numbers on every machine.
 *
 * Generator: sfc32 ("small fast counting", 32-bit), Chris Doty-Humphrey, PractRand, public domain.
 * Seeding: FNV-1a over the stream's name (Fowler, Noll, Vo, public domain), then the 32-bit finaliser of
 * MurmurHash3 (Austin Appleby, public domain). Each part of the simulator has a stream of its own, so that
 * one more reading does not change the fire.
 */
export interface Random {
  /** uniform in [0, 1) */
  uniform(): number;
  /** normal, mean 0, standard deviation 1 (Marsaglia's polar method) */
  normal(): number;
  between(lowest: number, highest: number): number;
  /** whole number, both ends possible */
  whole(lowest: number, highest: number): number;
  chance(probability: number): boolean;
  pick<T>(items: readonly [T, ...T[]]): T;
}

export function randomOf(seed: number, stream: string): Random {
  const uniform = sfc32(seed, stream);
  let spare: number | null = null;

  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square > 0 && square < 1) {
        const factor = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * factor;
        return x * factor;
      }
    }
  };
  const whole = (lowest: number, highest: number) => lowest + Math.floor(uniform() * (highest - lowest + 1));

  return {
    uniform,
    normal,
    between: (lowest, highest) => lowest + (highest - lowest) * uniform(),
    whole,
    chance: (probability) => uniform() < probability,
    pick: (items) => items[whole(0, items.length - 1)] ?? items[0],
  };
}

function sfc32(seed: number, stream: string): () => number {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`randomOf: seed ${seed}, a whole number is wanted`);
  let hash = 0x811c9dc5;
  for (let i = 0; i < stream.length; i += 1) hash = Math.imul(hash ^ stream.charCodeAt(i), 0x01000193);
  let a = finalised(seed | 0);
  let b = finalised(hash);
  let c = finalised(Math.floor(seed / 0x100000000) ^ 0x9e3779b9);
  let counter = 1;
  const next = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return (sum >>> 0) / 0x100000000;
  };
  for (let i = 0; i < 12; i += 1) next();
  return next;
}

function finalised(word: number): number {
  let mixed = word;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}

/** How far and how slowly something wanders: relative standard deviation and correlation time. */
export interface Wander {
  relativeSd: number;
  correlationS: number;
}

/**
 * A factor about 1 that wanders: exp(x - sd^2/2) with x an Ornstein-Uhlenbeck process, stepped exactly
 * (x' = x e^(-dt/tau) + sd sqrt(1 - e^(-2 dt/tau)) n), so that the mean stays 1 at any step.
 */
export function wanderingFactor(wander: Wander, random: Random): (dtS: number) => number {
  let x = wander.relativeSd * random.normal();
  return (dtS) => {
    const kept = Math.exp(-dtS / wander.correlationS);
    x = x * kept + wander.relativeSd * Math.sqrt(1 - kept * kept) * random.normal();
    return Math.exp(x - wander.relativeSd ** 2 / 2);
  };
}
