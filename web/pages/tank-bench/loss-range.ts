import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { plain } from "../../words/number.ts";

export type LossRange = NonNullable<Sizing["lagging"]>["range95"];

/** A loss or saving with its 95 % range, where the engine's own cooling was measured. */
export const ranged = (value: number, decimals: number, range: LossRange): string =>
  range === null
    ? plain(value, decimals)
    : `${plain(value, decimals)} (${plain(value * range.low, decimals)} to ${plain(value * range.high, decimals)})`;
