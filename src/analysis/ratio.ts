import { absent, type Figure } from "../quantity/measured.ts";
import { quotient } from "../quantity/product-and-quotient.ts";

/** a / b, and why not where either is absent or b is nothing. */
export const ratio = (a: Figure, b: Figure, unit: string): Figure =>
  a.value === null
    ? a
    : b.value === null
      ? b
      : b.value === 0
        ? absent(`what it is reckoned by came to 0 ${b.unit}`)
        : quotient(a, b, unit);
