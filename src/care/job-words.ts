import type { Job } from "./jobs.ts";

/** Said wherever something is to be taken off (common practice). */
export const beforeStripping =
  "Let her cool and lose all pressure before anything is taken off. A pressure gauge at nothing is not proof enough: open the regulator, the blower or a try cock, clear of hands and face, and see that nothing more comes (common practice).";

/** "take off cab roof, dome" */
export const takeOffInWords = ({ takeOff, takeOffSaid }: Pick<Job, "takeOff" | "takeOffSaid">): string =>
  takeOff.length > 0
    ? `take off ${takeOff.join(", ")}`
    : takeOffSaid
      ? "nothing to take off"
      : "what must come off is not said";

/** "Done together this saves ..."; empty for a fitting by itself. */
export function savedInWords({ hoursSaved, outingsSaved }: Pick<Job, "hoursSaved" | "outingsSaved">): string {
  if (outingsSaved === 0) return "";
  const layingsUp = outingsSaved === 1 ? "1 later laying-up" : `${outingsSaved} later layings-up`;
  return `Done together this saves about ${hoursSaved} h of stripping (half an hour a part, common practice) and ${layingsUp}.`;
}
