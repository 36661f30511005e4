import { averaged, type WeighedWay, weighedWays } from "../../quantity/weighed-ways.ts";
import { linearEstimator } from "../../statistics/linear-estimate.ts";
import type { Sources } from "../sources.ts";
import { PA_PER_BAR } from "../state/circumstances.ts";
import { sharedSource } from "../state/instruments.ts";
import type { Pumped } from "./first-raising.ts";
import { airGives, type Softness } from "./softness.ts";

const NAMES = { readings: "pressure readings", wander: "pressure readings", ways: "air in the boiler" };

/** From no air to nothing but air, in so many steps; and again closer about what the readings make likely, in so many rounds. */
const STEPS = 20;
/** One boiler in five is filled with no air worth telling (our estimate). */
const AIRLESS = 0.2;
const ROUNDS = 3;
const FAR = 5;

/**
 * Of what goes in from no pressure to the highest, any share may have squeezed air, as likely beforehand as another (our
 * choice): each share is a straight line between what was pumped and a shape of the pressure, and the readings say how likely
 * it is. So neither the air nor the springiness is ever less than none.
 * @param pumped to two pressures or more
 */
export function softnessByShares(
  { locomotive, errors, around }: Sources,
  pumped: readonly Pumped[],
  lowest: Pumped,
  highest: Pumped,
) {
  const atmosphereBar = around.atmospherePa / PA_PER_BAR;
  const column = (value: (point: Pumped) => number) => Float64Array.from(pumped, value);
  const allMl = highest.ml - lowest.ml;
  const wayOf = (share: number, thought: number) => {
    const [bySpring, byAir] = [
      (1 - share) / highest.barG,
      (share * (atmosphereBar + highest.barG)) / highest.barG,
    ];
    const taken = (barG: number) => barG * (bySpring + byAir / (atmosphereBar + barG));
    const roughMl = allMl / (taken(highest.barG) - taken(lowest.barG));
    const softness = (barG: number) => roughMl * (bySpring + byAir * airGives(atmosphereBar, barG));
    return { share, thought, bySpring, byAir, taken, softness, doubt: 3 * roughMl };
  };
  type Way = ReturnType<typeof wayOf>;
  const noise = ({ softness }: Way) =>
    column(({ barG }) => (softness(barG) * errors.pressureReadingBar) ** 2);
  const estimatorOf = (way: Way) =>
    linearEstimator({
      y: column(({ ml }) => ml - lowest.ml),
      noise: noise(way),
      causes: [
        column(() => 100 * allMl),
        column(({ barG }) => way.doubt * way.taken(barG)),
        column(({ barG }) => -way.softness(barG) * errors.pressureBiasBar),
      ],
    });
  // it is the pressures that err: a way in which they move the water less is no likelier for that
  const beforehand = ({ softness, thought }: Way) =>
    thought *
    Math.exp(
      pumped.reduce((sum, { barG }) => sum + Math.log((softness(barG) * highest.barG) / allMl), 0) *
        (1 - 2 / pumped.length),
    );
  let [low, high] = [0, 1];
  let ways: Way[] = [];
  let weighed: WeighedWay[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const step = (high - low) / STEPS;
    ways = Array.from({ length: STEPS }, (_, i) => wayOf(low + (i + 0.5) * step, (1 - AIRLESS) * step));
    ways.push(wayOf(0, AIRLESS));
    weighed = weighedWays(ways, estimatorOf, beforehand);
    const withAir = weighed.slice(0, -1);
    const some = withAir.reduce((sum, { weight }) => sum + weight, 0);
    const mean = (value: (share: number) => number) =>
      some > 0
        ? withAir.reduce((sum, { weight }, i) => sum + weight * value(ways[i]?.share ?? 0), 0) / some
        : 0;
    const middle = mean((share) => share);
    const spread = Math.hypot(Math.sqrt(mean((share) => (share - middle) ** 2)), step / 2);
    if (round < ROUNDS - 1)
      [low, high] = [Math.max(0, middle - FAR * spread), Math.min(1, middle + FAR * spread)];
  }
  const of = (wanted: (way: Way) => number) =>
    averaged(weighed, {
      ofWanted: (place) => {
        const way = ways[place] as Way;
        return [0, wanted(way) * way.doubt, 0];
      },
      unit: "ml/bar",
      parts: [
        { name: "few readings" },
        { name: "few readings" },
        { name: "bias of the pressure dial", source: sharedSource.dial(locomotive) },
      ],
      names: NAMES,
    });
  return {
    softness: {
      steadyMlPerBar: of(({ bySpring }) => bySpring).value,
      airMl: of(({ byAir }) => byAir).value,
      atmosphereBar,
    } satisfies Softness,
    /** ml for a bar more, of all between two gauge pressures, without the scale of the pump */
    between: (fromBar: number, toBar: number) => {
      const gives = airGives(atmosphereBar, fromBar, toBar);
      return of(({ bySpring, byAir }) => bySpring + byAir * gives);
    },
  };
}
