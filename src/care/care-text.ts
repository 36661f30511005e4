import type { Care } from "./care.ts";
import type { FittingCare } from "./fitting-care.ts";
import type { Job } from "./jobs.ts";
import { hoursInWords, serviceWords } from "./words.ts";

/** An engine's care as it is read on a terminal or a sheet of paper. */
export function careText(care: Care): string {
  const { locomotive, fittings, suspects, jobs } = care;
  const nameOf = (id: string) => locomotive.fittings.find((fitting) => fitting.id === id)?.name ?? id;
  return [
    `${locomotive.name}: ${hoursInWords(care.hours)} in steam logged`,
    "",
    ...(fittings.length === 0 ? ["No fittings are listed for this engine."] : fittings.flatMap(fittingLines)),
    ...(jobs.length === 0
      ? []
      : ["", "Before the next steaming", ...jobs.map((job) => `  ${jobInWords(job, nameOf)}`)]),
    ...(suspects.length === 0 ? [] : ["", "Where to look first (likelihoods are common practice)"]),
    ...suspects.flatMap(({ name, why, check }) => [`  ${name}. ${why}`, `      Check: ${check}`]),
    "",
    "The program reckons from what was logged; it never says that a boiler is fit or safe.",
  ].join("\n");
}

function fittingLines({ fitting, state, why, measureNext, services }: FittingCare): string[] {
  const last = services.at(-1);
  return [
    `${state.toUpperCase().padEnd(7)} ${fitting.name}. ${why}`,
    ...(measureNext === null ? [] : [`        Next: ${measureNext}`]),
    ...(last === undefined
      ? []
      : [`        ${serviceWords[last.service.what]} ${last.service.at.slice(0, 10)}: ${last.effect.words}`]),
  ];
}

/** "With cab roof off: regulator gland. While it is apart: turret joint (saves about 1 h and 1 outing)." */
export function jobInWords(job: Job, nameOf: (id: string) => string): string {
  const off = job.takeOff.length === 0 ? "Nothing to take off" : `Take off ${job.takeOff.join(", ")}`;
  const also =
    job.alsoWorth.length === 0
      ? ""
      : ` Worth doing while it is apart: ${job.alsoWorth.map(nameOf).join(", ")}.`;
  const saved =
    job.outingsSaved === 0
      ? ""
      : ` Together this saves about ${job.hoursSaved} h of stripping (half an hour a part, common practice) and ${job.outingsSaved} later laying-up${job.outingsSaved === 1 ? "" : "s"}.`;
  return `${off}: ${job.do.map(nameOf).join(", ")}.${also}${saved}`;
}
