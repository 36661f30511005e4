import { absent } from "../quantity/measured.ts";
import { reported } from "../quantity/reported.ts";
import type { Care } from "./care.ts";
import type { CareReport } from "./care-schema.ts";
import type { FittingCare } from "./fitting-care.ts";
import { whyNoCourse } from "./left-out.ts";
import { lower } from "./words.ts";

/** The contract's form of an engine's care. */
export function careReportOf({ locomotive, fittings, suspects, jobs }: Care): CareReport {
  return {
    locomotiveId: locomotive.id,
    fittings: fittings.map((care) => ({
      fitting: care.fitting.id,
      state: care.state,
      why: withNext(care),
      readings: care.readings,
      hoursSinceService: care.since.hours,
      slope: reported(care.leak?.slope ?? absent(whyNoCourse(care))),
      hoursToLimit: reported(care.leak?.hoursToLimit ?? absent(whyNoCourse(care))),
      change: changeOf(care),
    })),
    suspects: suspects.map(({ name, weight, why, check }) => ({
      name,
      weight,
      why: `${why} Check: ${check}`,
    })),
    jobs: jobs.map(({ takeOff, do: fix, alsoWorth }) => ({ takeOff, do: fix, alsoWorth })),
  };
}

/** The report has no place of its own for what to measure next. */
const withNext = ({ why, measureNext }: FittingCare): string =>
  measureNext === null ? why : `${why.slice(0, -1)}; next: ${lower(measureNext)}`;

export function changeOf({ leak }: FittingCare): CareReport["fittings"][number]["change"] {
  if (leak === null) return null;
  if (leak.step !== null)
    return { steamingId: leak.step.steamingId, from: leak.step.before, to: leak.step.after };
  if (leak.jump === null) return null;
  const { reading, expected } = leak.jump;
  return { steamingId: reading.steamingId, from: Math.max(0, expected), to: reading.gPerMin };
}
