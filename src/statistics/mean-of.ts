/** Mean of what each of some items bears; NaN for none. */
export const meanOf = <Item>(items: readonly Item[], value: (item: Item) => number): number =>
  items.reduce((sum, item) => sum + value(item), 0) / items.length;
