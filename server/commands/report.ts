import { readFileSync } from "node:fs";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { particularsOf } from "../../src/analysis/words/particulars.ts";
import { testSheetText } from "../../src/analysis/words/test-sheet-text.ts";
import { problemLine } from "../../src/logbook/problems.ts";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { readArguments } from "./read-arguments.ts";

const USAGE = "usage: npm run --silent report -- FILE.json [--json] [--steaming ID] [--until S]";

/** Analyses a logbook file without a server. Writes to the given streams; returns the exit code. */
export function reportCommand(
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
  const { locomotives, steamings } = reading.value;
  const chosen =
    options.steaming === undefined ? steamings : steamings.filter((one) => one.id === options.steaming);
  if (options.steaming !== undefined && chosen.length === 0) {
    complain(
      `--steaming: came ${options.steaming}; wanted one of ${steamings.map((one) => one.id).join(", ") || "none"}`,
    );
    return 1;
  }
  const untilS = options.untilS ?? Number.POSITIVE_INFINITY;
  const logged = chosen.some(
    ({ entries, traces = [] }) =>
      entries.some(({ atS }) => atS <= untilS) || traces.some(({ startS }) => startS <= untilS),
  );
  if (!logged && options.untilS !== undefined) complain(`--until: nothing had been logged by ${untilS} s`);
  const unforeseen: string[] = [];
  const results = chosen.flatMap((steaming) => {
    const locomotive = locomotives.find((one) => one.id === steaming.locomotiveId);
    if (locomotive === undefined) return [];
    try {
      const analysis = analyse(
        locomotive,
        steaming,
        options.untilS === undefined ? {} : { untilS: options.untilS },
      );
      return [{ report: reportOf(analysis), steaming, locomotive, beside: particularsOf(analysis) }];
    } catch (error) {
      unforeseen.push(
        `steaming ${steaming.id}: cannot be worked out (${error instanceof Error ? error.message : String(error)})`,
      );
      return [];
    }
  });
  if (unforeseen.length > 0) {
    for (const line of unforeseen) complain(line);
    return 1;
  }
  out(
    options.json
      ? `${JSON.stringify(
          results.map(({ report }) => report),
          null,
          2,
        )}\n`
      : `${results.map(({ report, steaming, locomotive, beside }) => testSheetText(report, steaming, locomotive, beside)).join("\n\n\n")}\n`,
  );
  return 0;
}

interface ReportOptions {
  file: string;
  json: boolean;
  steaming: string | undefined;
  untilS: number | undefined;
}

function optionsOf(args: string[]): ReportOptions | string {
  const read = readArguments(args, { json: false, steaming: true, until: true });
  if (typeof read === "string") return read;
  const { files, options } = read;
  const [file, ...more] = files;
  if (file === undefined || more.length > 0) return `came ${files.length} files; wanted one`;
  const until = options.get("until");
  const untilS = until === undefined ? undefined : Number(until);
  if (untilS !== undefined && !Number.isFinite(untilS))
    return `--until: came ${until}; wanted seconds since the start`;
  return { file, json: options.has("json"), steaming: options.get("steaming"), untilS };
}

if (
  process.argv[1] !== undefined &&
  import.meta.url.endsWith("/server/commands/report.ts") &&
  process.argv[1].endsWith("report.ts")
) {
  process.exitCode = reportCommand(
    process.argv.slice(2),
    (text) => process.stdout.write(text),
    (line) => process.stderr.write(`${line}\n`),
  );
}
