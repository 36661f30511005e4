/** One reading that fixes the water in the boiler (or the weight of the whole engine) at a moment. */
export interface MassReading {
  atS: number;
  /** place in the log, to tell what came first within one second */
  order: number;
  grams: number;
  /** standard uncertainty of this reading alone */
  uGrams: number;
  of: "contents" | "whole engine";
  /** water measured as it was poured in or let out */
  poured?: true;
  /** systematic parts: signed standard uncertainty in g by source */
  shared: readonly { source: string; name: string; uGrams: number }[];
}
