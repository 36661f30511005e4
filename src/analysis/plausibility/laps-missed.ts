import { clock } from "../../quantity/clock.ts";
import type { MissedLaps } from "../laps/laps-missed.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** Gaps between laps that give others away, or may hide some. */
export const lapsMissedWarnings = ({ laps }: Pick<Sources, "laps">): Warning[] =>
  laps.missed.map((gap) => ({
    code: "lap-perhaps-missed",
    text: `The lap before ${clock(gap.atS)} took as long as ${gap.times} laps${said(gap)}`,
    entries: gap.eitherWay === null ? [gap.entryId] : [gap.sinceId, gap.entryId],
  }));

function said({ count, times, eitherWay }: MissedLaps): string {
  const counted = `; ${count} ${count === 1 ? "is" : "are"} counted as run but not recorded`;
  if (eitherWay === null) return `${counted}.`;
  const both = "The range of what was used a lap takes in both.";
  return count > 0
    ? ` with the regulator open${counted}. If she stood, they were not run. ${both} Write down when the regulator is shut.`
    : ` with the regulator open; as there was a hand on her, she is taken to have stood. If she ran on, ${times - 1} laps were not recorded. ${both} Write down when the regulator is shut.`;
}
