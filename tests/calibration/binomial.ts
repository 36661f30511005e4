/** Chance that at least `hits` of `of` come about where each does with chance `p`, the terms summed by their logarithms. */
export function atLeast(hits: number, of: number, p: number): number {
  let log = of * Math.log(p);
  let sum = hits <= of ? Math.exp(log) : 0;
  for (let k = of - 1; k >= hits; k--) {
    log += Math.log((k + 1) / (of - k)) + Math.log((1 - p) / p);
    sum += Math.exp(log);
  }
  return Math.min(1, sum);
}
