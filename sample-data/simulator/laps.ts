/** Moments at which whole laps were completed, from the way gone at 0, 1, 2 ... s. */
export function lapTimesS(distanceM: readonly number[], lapM: number): number[] {
  const times: number[] = [];
  for (let s = 1; s < distanceM.length; s += 1) {
    const before = distanceM[s - 1] ?? 0;
    const after = distanceM[s] ?? 0;
    while ((times.length + 1) * lapM <= after) {
      const mark = (times.length + 1) * lapM;
      times.push(s - 1 + (mark - before) / (after - before));
    }
  }
  return times;
}
