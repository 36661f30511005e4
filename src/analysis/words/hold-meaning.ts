import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";
import { perhapsNothing, toldFromNothing } from "./told-from-nothing.ts";

/**
 * What the fall of pressure in a cold hold means; null where there is nothing to say.
 * @param words the figures put into words by who prints them; the water that each bar took may be left out
 */
export function holdSentence(
  { leak, compliance, temperatureCouldExplain }: NonNullable<Report["coldHold"]>,
  words: {
    leak: (figure: Reported) => string | null;
    /** without its range, where `leak` gives it */
    bareLeak?: (figure: Reported) => string | null;
    eachBar?: (figure: Reported) => string | null;
  },
): string | null {
  const lost = words.leak(leak);
  const took = words.eachBar?.(compliance) ?? null;
  const each = took === null ? "" : `; each bar took ${took} of water`;
  if (temperatureCouldExplain === true)
    return lost === null
      ? "A drift of the water's temperature alone could explain the fall of pressure."
      : `Full and cold the fall stands for ${lost} at working pressure${each}. A drift of the water's temperature alone could explain it.`;
  if (lost === null) return null;
  return toldFromNothing(leak)
    ? `Full and cold she loses ${lost} at working pressure${each}. The drift of the water's temperature does not explain it.`
    : `Full and cold she loses ${perhapsNothing(leak, words.bareLeak ?? words.leak)} at working pressure${each}.`;
}
