import { asRead } from "../quantity/digits.ts";
import { absent, type Figure, interval } from "../quantity/measured.ts";
import { quotient } from "../quantity/product-and-quotient.ts";

/** a / b, and why not where either is absent, or b is nothing or may as well be. */
export function ratio(a: Figure, b: Figure, unit: string): Figure {
  if (a.value === null) return a;
  if (b.value === null) return b;
  if (b.value === 0) return absent(`what it is reckoned by came to 0 ${b.unit}`);
  const [low, high] = interval(b);
  return low < 0 && high > 0
    ? absent(
        `what it is reckoned by, ${asRead(Number(b.value.toPrecision(2)))} ${b.unit}, is lost in its own errors: was it written down in its right unit?`,
      )
    : quotient(a, b, unit);
}
