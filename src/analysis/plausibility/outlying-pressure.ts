import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { type Outlying, outlyingPressures } from "../state/slips.ts";
import type { Question } from "./question.ts";

type From = Pick<Sources, "asWritten" | "errors" | "locomotive">;

/** A reading of the dial that its neighbours do not bear out: 4.1, 42, 4.2. */
export const outlying = ({ asWritten, errors, locomotive }: From): (Question & Outlying)[] =>
  outlyingPressures(asWritten, errors, locomotive).map((found) => ({
    code: "reading-outlying",
    entries: [found.reading.id],
    ...found,
  }));

export const outlyingPressureWarnings = (from: From): Warning[] =>
  outlying(from).map(({ code, entries, reading, besideBarG, pointSlipped, isSlip }) => ({
    code,
    text: `The pressure at ${clock(reading.atS)}, ${reading.barG} bar, lies far from the readings beside it (${besideBarG.join(" and ")} bar)${
      isSlip ? " and is left out" : ""
    }.${pointSlipped ? " Has the decimal point slipped?" : ""}`,
    entries,
  }));
