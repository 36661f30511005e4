/** Throws a RangeError that says function, received value, unit and permitted range, unless value is within. */
export function within(value: number, low: number, high: number, unit: string, where: string): void {
  if (value >= low && value <= high) return;
  throw new RangeError(`${where}: ${value} ${unit}, permitted ${low} to ${high} ${unit}`);
}
