/** How an ordered state is seen and how it moves. */
export interface OrdinalModel {
  /** number of grades, in order */
  grades: number;
  /** what is thought of each grade before the first look */
  start: readonly number[];
  /** chance of seeing grade j (second place) when grade i (first) is there */
  seen: readonly (readonly number[])[];
  /** steps upwards an hour that are thought possible, with their weights, and the steps downwards an hour */
  upPerHour: readonly { rate: number; weight: number }[];
  downPerHour: number;
}

export interface OrdinalBelief {
  /** chance of each grade now */
  grades: readonly number[];
  /** chance of each grade after so many hours more */
  after(hours: number): readonly number[];
}

/**
 * What a series of graded looks says of the grade that is really there: no grade is given a number, only an order and
 * the chance that an eye takes it for its neighbour. A hidden chain seen through errors, by the forward recursion
 * (Rabiner, Proc. IEEE 77, 1989, 257-286), once for each pace and averaged by how well each pace explains the looks.
 * @param looks hours (rising) and grade, from 0
 * @throws RangeError for a grade that is none of the model's
 */
export function ordinalBelief(
  looks: readonly { hours: number; grade: number }[],
  model: OrdinalModel,
): OrdinalBelief {
  const runs = model.upPerHour.map(({ rate, weight }) => {
    let belief = [...model.start];
    let likelihood = weight;
    let hours = 0;
    for (const look of looks) {
      const seen = belief.map((_, there) => model.seen[there]?.[look.grade]);
      if (seen.some((chance) => chance === undefined)) {
        throw new RangeError(`ordinalBelief: grade ${look.grade}, permitted 0 to ${model.grades - 1}`);
      }
      belief = moved(belief, Math.max(0, look.hours - hours), rate, model.downPerHour).map(
        (chance, there) => chance * (seen[there] ?? 0),
      );
      const total = belief.reduce((sum, chance) => sum + chance, 0);
      likelihood *= total;
      belief = belief.map((chance) => chance / total);
      hours = Math.max(hours, look.hours);
    }
    return { belief, likelihood, rate };
  });
  const total = runs.reduce((sum, run) => sum + run.likelihood, 0);
  const after = (hours: number) => {
    const mixed = new Array<number>(model.grades).fill(0);
    for (const run of runs) {
      moved(run.belief, hours, run.rate, model.downPerHour).forEach((chance, grade) => {
        mixed[grade] = (mixed[grade] ?? 0) + (chance * run.likelihood) / total;
      });
    }
    return mixed;
  };
  return { grades: after(0), after };
}

/** One step of the chain is at most so long, hours. */
const STEP_H = 0.25;
const MOST_STEPS = 400;

function moved(belief: readonly number[], hours: number, up: number, down: number): number[] {
  let now = [...belief];
  const steps = Math.min(MOST_STEPS, Math.ceil(hours / STEP_H));
  for (let step = 0; step < steps; step++) {
    const dt = hours / steps;
    const [rises, falls] = [1 - Math.exp(-up * dt), 1 - Math.exp(-down * dt)];
    now = now.map((chance, i) => {
      const leaves = (i < now.length - 1 ? rises : 0) + (i > 0 ? falls : 0);
      return chance * (1 - leaves) + (now[i - 1] ?? 0) * rises + (now[i + 1] ?? 0) * falls;
    });
  }
  return now;
}
