import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { outlyingPressures } from "../state/slips.ts";

/** A reading of the dial that its neighbours do not bear out: 4.1, 42, 4.2. */
export const outlyingPressureWarnings = ({
  asWritten,
  errors,
  locomotive,
}: Pick<Sources, "asWritten" | "errors" | "locomotive">): Warning[] =>
  outlyingPressures(asWritten, errors, locomotive).map(({ reading, besideBarG, pointSlipped, isSlip }) => ({
    code: "reading-outlying",
    text: `The pressure at ${Math.round(reading.atS)} s, ${reading.barG} bar, lies far from the readings beside it (${besideBarG.join(" and ")} bar)${
      isSlip ? " and is left out" : ""
    }.${pointSlipped ? " Has the decimal point slipped?" : ""}`,
    entries: [reading.id],
  }));
