import type { Locomotive } from "../../logbook/locomotive.ts";

/**
 * Of what is drawn so much leaks below the water, boiling, and carries off no heat of evaporation; as much in doubt (our
 * estimate: a clack is thought worth mending from 0.3 to 0.5 g/min on, common practice, and in good order passes a small part of that,
 * of 2 to 15 g/min drawn; larger engines draw more and have larger fittings).
 */
const OF_DRAWN = 0.01;

/** The part of what was drawn that is thought to have left as boiling water: none of an engine of which no clack was written down. */
export const leaksBoiling = ({ fittings }: Locomotive): number =>
  fittings.some(({ kind }) => kind === "clack") ? OF_DRAWN : 0;
