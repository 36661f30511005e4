/** Common full-size widths to begin with; the owner's own railway decides. */
export const loadingGauges = [
  { width: "9 ft", words: "British main lines (from memory)" },
  { width: "8 ft 6 in", words: "tighter British lines (from memory)" },
  { width: "10 ft 8 in", words: "North American, plate B (from memory)" },
  { width: "6 ft 6 in", words: "two-foot gauge lines (from memory)" },
] as const;
