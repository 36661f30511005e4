/** (got - wanted) / wanted */
export const relative = (got: number, wanted: number): number => got / wanted - 1;

/** The size of the above. */
export const relativeError = (got: number, wanted: number): number => Math.abs(relative(got, wanted));
