/** Runs with a load, different loads among them, and how far these must differ, before a line is drawn (our choice). */
const FEWEST_RUNS = 5;
const FEWEST_LOADS = 3;
const LEAST_RANGE = 0.2;

/** How far beyond the loads of the runs the line is carried, as a part of how far these lie apart (our choice). */
const CARRIED = 1;

/** Why the line through runs of these loads is not carried to the planned one; null where it is. */
export function whyTooFar(loads: readonly number[], planned: number): string | null {
  const [lightest, heaviest] = [Math.min(...loads), Math.max(...loads)];
  const beyond = Math.max(lightest - planned, planned - heaviest);
  return beyond > CARRIED * (heaviest - lightest)
    ? `the planned load of ${planned} kg lies too far outside those of the runs, ${lightest} to ${heaviest} kg: the line is not carried so far`
    : null;
}

/** Why runs of these loads (null: not recorded) tell no line in the load; null where they tell one. */
export function whyNoLine(loads: readonly (number | null)[]): string | null {
  const known = loads.filter((load) => load !== null);
  if (known.length < FEWEST_RUNS) {
    return `it takes five runs with a recorded load to tell what load costs, and there ${known.length === 1 ? "is 1" : `are ${known.length === 0 ? "none" : known.length}`}`;
  }
  const different = new Set(known).size;
  if (different < FEWEST_LOADS) {
    return `it takes three different loads to tell what load costs, and the runs have ${different}`;
  }
  const heaviest = Math.max(...known);
  return heaviest - Math.min(...known) < LEAST_RANGE * heaviest
    ? "the loads of the runs differ by less than a fifth, too little to tell what load costs"
    : null;
}
