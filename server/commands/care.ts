import { readFileSync } from "node:fs";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { careOf } from "../../src/care/care.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import { careText } from "../../src/care/care-text.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { problemLine } from "../../src/logbook/problems.ts";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { readArguments } from "./read-arguments.ts";

const USAGE = "usage: npm run --silent care -- FILE.json [--json]";

/** The Fitter's book of each engine of a logbook file, without a server. Returns the exit code. */
export function careCommand(
  args: string[],
  out: (text: string) => void,
  complain: (line: string) => void,
): number {
  const options = optionsOf(args);
  if (typeof options === "string") {
    complain(options);
    complain(USAGE);
    return 1;
  }
  let text: string;
  try {
    text = readFileSync(options.file, "utf8");
  } catch (error) {
    complain(`${options.file}: cannot be read (${error instanceof Error ? error.message : String(error)})`);
    return 1;
  }
  const reading = readLogbook(text);
  if (!reading.ok) {
    for (const problem of reading.problems) complain(problemLine(problem));
    return 1;
  }
  const cares = careOfAll(reading.value);
  out(
    options.json
      ? `${JSON.stringify(cares.map(careReportOf), null, 2)}\n`
      : `${cares.map(careText).join("\n\n\n")}\n`,
  );
  return 0;
}

function careOfAll({ locomotives, steamings, services }: LogbookFile) {
  return locomotives.map((locomotive) =>
    careOf(
      locomotive,
      steamings
        .filter((steaming) => steaming.locomotiveId === locomotive.id)
        .map((steaming) => ({ steaming, report: reportOf(analyse(locomotive, steaming)) })),
      services.filter((service) => service.locomotiveId === locomotive.id),
      Date.now(),
    ),
  );
}

function optionsOf(args: string[]): { file: string; json: boolean } | string {
  const read = readArguments(args, { json: false });
  if (typeof read === "string") return read;
  const [file, ...more] = read.files;
  if (file === undefined || more.length > 0) return `came ${read.files.length} files; wanted one`;
  return { file, json: read.options.has("json") };
}

if (
  process.argv[1] !== undefined &&
  import.meta.url.endsWith("/server/commands/care.ts") &&
  process.argv[1].endsWith("care.ts")
) {
  process.exitCode = careCommand(
    process.argv.slice(2),
    (text) => process.stdout.write(text),
    (line) => process.stderr.write(`${line}\n`),
  );
}
