/** Neighbours that are alike put together, in their order. */
export function alike<Item>(items: readonly Item[], by: (item: Item) => unknown): [Item, ...Item[]][] {
  const runs: [Item, ...Item[]][] = [];
  for (const item of items) {
    const run = runs.at(-1);
    if (run !== undefined && by(run[0]) === by(item)) run.push(item);
    else runs.push([item]);
  }
  return runs;
}
