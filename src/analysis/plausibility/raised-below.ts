import { clock } from "../../quantity/clock.ts";
import type { Raising } from "../heat/raising.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** The power of raising steam is meant to be that to working pressure; where it is not, to what pressure and in what time. */
export function raisedBelowWarnings({ timeline }: Sources, raising: Raising | null): Warning[] {
  if (raising === null || raising.setOffBelow === null || raising.window === null) return [];
  const { barG } = raising.setOffBelow;
  const [fromS, toS] = raising.window;
  const until = `${barG.toFixed(2)} bar, in ${clock(toS - fromS)}`;
  const met =
    raising.toWorkingPressureS === null
      ? ""
      : `, and not to working pressure, shown ${clock(raising.toWorkingPressureS)} after lighting up`;
  return [
    {
      code: "raised-below-working-pressure",
      text: `No reading shows working pressure before steam was used or the fire went out: the power of raising steam is that to ${until}${met}. Let her come up to working pressure first, and read the dial there.`,
      entries: timeline
        .of("pressure")
        .filter(({ atS }) => atS === toS)
        .map(({ id }) => id),
    },
  ];
}
