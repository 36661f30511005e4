import type { Care } from "./care.ts";
import type { FittingCare } from "./fitting-care.ts";
import { outingsToFalseAlarm } from "./indicator-course.ts";
import { beforeStripping, savedInWords, takeOffInWords } from "./job-words.ts";
import type { Job } from "./jobs.ts";
import { hoursInWords, serviceWords } from "./words.ts";

/** An engine's care as it is read on a terminal or a sheet of paper. */
export function careText(care: Care): string {
  const { locomotive, fittings, indicators, suspects, jobs } = care;
  const nameOf = (id: string) => locomotive.fittings.find((fitting) => fitting.id === id)?.name ?? id;
  return [
    `${locomotive.name}: ${hoursInWords(care.hours)} in steam logged`,
    "",
    ...(fittings.length === 0 ? ["No fittings are listed for this engine."] : fittings.flatMap(fittingLines)),
    ...(jobs.length === 0
      ? []
      : [
          "",
          "Before the next steaming",
          `  ${beforeStripping}`,
          ...jobs.map((job) => `  ${jobInWords(job, nameOf)}`),
        ]),
    ...(suspects.length === 0 ? [] : ["", "Where to look first (likelihoods are common practice)"]),
    ...suspects.flatMap(({ name, why, check }) => [`  ${name}. ${why}`, `      Check: ${check}`]),
    ...(indicators.length === 0
      ? []
      : [
          "",
          `Her own figures are compared with her own like outings before: where nothing has changed, each gives a false alarm once in about ${Math.round(outingsToFalseAlarm)} outings, where it strays as is estimated.`,
        ]),
    "",
    "The program reckons from what was logged; it never says that a boiler is fit or safe.",
  ].join("\n");
}

function fittingLines({ fitting, state, why, measureNext, services }: FittingCare): string[] {
  return [
    `${state.toUpperCase().padEnd(7)} ${fitting.name}. ${why}`,
    ...(measureNext === null ? [] : [`        Next: ${measureNext}`]),
    ...services.map(
      ({ service, effect }) =>
        `        ${serviceWords[service.what]} ${service.at.slice(0, 10)}: ${effect.words}`,
    ),
  ];
}

/** "Take off cab roof, dome: regulator. Worth doing while it is apart: turret joint. Done together this saves ..." */
function jobInWords(job: Job, nameOf: (id: string) => string): string {
  const off = takeOffInWords(job).replace(/^./, (letter) => letter.toUpperCase());
  const also =
    job.alsoWorth.length === 0
      ? ""
      : ` Worth doing while it is apart: ${job.alsoWorth.map(nameOf).join(", ")}.`;
  return `${off}: ${job.do.map(nameOf).join(", ")}.${also} ${savedInWords(job)}`.trimEnd();
}
