import type { Form } from "../../words/figure-text.ts";

const ratios = ["efficiency", "overallEfficiency", "missingQuantity", "volumetricEfficiency"];

/** Whether a compared figure is printed in per cent. */
export const formOf = (key: string): Form => (ratios.includes(key) ? "per-cent" : "as-is");
