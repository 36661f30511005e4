/** The usual cautions, a sentence each: said here once for terminal, pages, paper and templates. */
export const CAUTION_SENTENCES = [
  "Never above working pressure.",
  "Never plug or screw down a safety valve.",
  "Never rely on a forecast: look at the glass.",
  "Let the fire finish before the water.",
  "Gas and spirit away from flame.",
  "Mind eyes and hands.",
] as const;
