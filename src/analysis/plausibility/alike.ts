/** Neighbours that are alike put together, in their order. */
export function alike<Item>(items: readonly Item[], by: (item: Item) => unknown): Item[][] {
  const runs: Item[][] = [];
  let before: unknown;
  for (const item of items) {
    const now = by(item);
    if (runs.length > 0 && now === before) runs.at(-1)?.push(item);
    else runs.push([item]);
    before = now;
  }
  return runs;
}
