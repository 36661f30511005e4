import { binned, futuresOf } from "./sizing-futures.ts";

/** What tanks made to the bound, and probabilities of endurance, come to over many simulated futures. */
export function sizingReport(firstSeed: number, count: number): string {
  const futures = futuresOf(firstSeed, count);
  const share = (list: readonly { suffices: boolean }[]) =>
    `${((100 * list.filter(({ suffices }) => suffices).length) / list.length).toFixed(1)} % of ${list.length}`;
  const few = futures.filter(({ runs }) => runs <= 5);
  const many = futures.filter(({ runs }) => runs > 5);
  const rows = (name: string, pairs: readonly { said: number; came: boolean }[]) =>
    binned(pairs).map(
      (bin) =>
        `${name}, said ${(100 * bin.from).toFixed(0)} to ${(100 * bin.to).toFixed(0)} %: mean said ${(100 * bin.said).toFixed(1)} %, came ${(100 * bin.came).toFixed(1)} % of ${bin.count}`,
    );
  return [
    `Tanks made to the 95 % bound, ${count} simulated futures of invented engines (3 to 12 runs each):`,
    `they suffice in ${share(futures)}; with 3 to 5 runs ${share(few)}, with 6 to 12 ${share(many)}`,
    ...rows(
      "fuel ends first",
      futures.map(({ fuelFirst }) => fuelFirst),
    ),
    ...rows(
      "water lasts the plan",
      futures.map(({ waterLasts }) => waterLasts),
    ),
  ].join("\n");
}
