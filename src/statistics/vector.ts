/** A vector made element by element: several times as quick as Float64Array.from with a mapping. */
export function vectorOf<T>(items: readonly T[], value: (item: T, index: number) => number): Float64Array {
  const vector = new Float64Array(items.length);
  for (let i = 0; i < items.length; i++) vector[i] = value(items[i] as T, i);
  return vector;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
