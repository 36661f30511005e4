/** Throws a RangeError that says function, received value, unit and permitted range, unless value is within. */
export function within(value: number, low: number, high: number, unit: string, where: string): void {
  if (value >= low && value <= high) return;
  throw new RangeError(`${where}: ${value} ${unit}, permitted ${low} to ${high} ${unit}`);
}

/** The same for what must be above 0 and finite. */
export function positive(value: number, unit: string, where: string): void {
  if (value > 0 && Number.isFinite(value)) return;
  throw new RangeError(`${where}: ${value} ${unit}, permitted above 0 ${unit}`);
}

/** The same for what must be 0 or more and finite. */
export function notNegative(value: number, unit: string, where: string): void {
  if (value >= 0 && Number.isFinite(value)) return;
  throw new RangeError(`${where}: ${value} ${unit}, permitted 0 ${unit} or more`);
}
