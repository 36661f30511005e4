import { bellWithin } from "../../quantity/mean-within.ts";
import { gathered, type Measured, standardUncertainty } from "../../quantity/measured.ts";

/** Of all that goes while she runs, what leaks at stops and what valve and blower take is thought a fifth, often less and seldom far more (our estimate). */
const OTHERS = 0.2;
/** Below this part of the engine's u there is nothing besides her. */
const NOTHING = 1e-6;

/**
 * What the engine drew by the time in which she alone did, knowing that stops, valve and blower gave nothing back: where more comes
 * out than went in all, what they took lies between none and all, at the mean of what that leaves, and the engine's share goes
 * with it as their errors do (the regression of the one on the other).
 * @param engine by the time clear of the others, g
 * @param others all that went less that, g
 * @param all the two together, g
 */
export function nothingGivenBack(engine: Measured, others: Measured, all: Measured): Measured {
  const [u, uOthers, uAll] = [engine, others, all].map(standardUncertainty) as [number, number, number];
  if (!(uOthers > NOTHING * u && all.value > 0)) return engine;
  const slope = (uAll ** 2 - u ** 2 - uOthers ** 2) / (2 * uOthers ** 2);
  // of what falls off as an exponential the bell of the readings lies so much lower
  const thought = others.value - uOthers ** 2 / (OTHERS * all.value);
  const took = bellWithin(thought, uOthers, 0, all.value);
  const left = Math.sqrt(Math.max(0, 1 - (slope / u) ** 2 * (uOthers ** 2 - took.sd ** 2)));
  return {
    value: engine.value + slope * (took.mean - others.value),
    unit: engine.unit,
    parts: gathered(engine.parts.map((part) => ({ ...part, u: left * part.u }))),
  };
}
