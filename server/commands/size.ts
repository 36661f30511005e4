import { readFileSync } from "node:fs";
import { analyse } from "../../src/analysis/analyse.ts";
import { problemLine, problemsOf } from "../../src/logbook/problems.ts";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import { type Plan, planSchema } from "../../src/sizing/plan-schema.ts";
import { runFiguresOf } from "../../src/sizing/run-figures-of.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { sizingText } from "../../src/sizing/sizing-text.ts";
import { readArguments } from "./read-arguments.ts";

const USAGE = "usage: npm run --silent size -- FILE.json PLAN.json [--json]";

/** Sizes tanks by a logbook file and a plan, without a server. Writes to the given streams; returns the exit code. */
export function sizeCommand(
  args: string[],
  out: (text: string) => void,
  complain: (line: string) => void,
): number {
  try {
    const { file, planFile, json } = optionsOf(args);
    const reading = readLogbook(textOf(file));
    if (!reading.ok) throw new Refused(reading.problems.map(problemLine));
    const { locomotives, steamings } = reading.value;
    const plan = planOf(planFile);
    const locomotive = locomotives.find(({ id }) => id === plan.locomotiveId);
    const ids = locomotives.map(({ id }) => id);
    if (locomotive === undefined) throw refusedFor("locomotiveId", plan.locomotiveId, ids);
    const own = steamings.filter(({ locomotiveId }) => locomotiveId === locomotive.id);
    for (const [i, id] of (plan.steamings ?? []).entries()) {
      if (!own.some((steaming) => steaming.id === id)) {
        throw refusedFor(
          `steamings[${i}]`,
          id,
          own.map((steaming) => steaming.id),
        );
      }
    }
    const runs = own.map((steaming) => runFiguresOf(analyse(locomotive, steaming)));
    const { sizing } = sizeUp(locomotive, plan, modelsOf(runs, plan));
    out(json ? `${JSON.stringify(sizing, null, 2)}\n` : `${sizingText(locomotive, plan, sizing)}\n`);
    return 0;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    for (const line of error.lines) complain(line);
    return 1;
  }
}

class Refused extends Error {
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join("\n"));
    this.lines = lines;
  }
}

const refusedFor = (path: string, came: string, there: readonly string[]): Refused =>
  new Refused([problemLine({ path, came, wanted: `one of ${there.slice(0, 8).join(", ") || "none"}` })]);

const words = (error: unknown): string => (error instanceof Error ? error.message : String(error));

function textOf(file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    throw new Refused([`${file}: cannot be read (${words(error)})`]);
  }
}

function planOf(file: string): Plan {
  let input: unknown;
  try {
    input = JSON.parse(textOf(file).replace(/^\uFEFF/, ""));
  } catch (error) {
    if (error instanceof Refused) throw error;
    throw new Refused([`${file}: came a text that is not JSON (${words(error)}); wanted JSON`]);
  }
  const parsed = planSchema.safeParse(input);
  if (parsed.success) return parsed.data;
  throw new Refused(problemsOf(parsed.error, input).map(problemLine));
}

function optionsOf(args: string[]): { file: string; planFile: string; json: boolean } {
  const read = readArguments(args, { json: false });
  if (typeof read === "string") throw new Refused([read, USAGE]);
  const [file, planFile, ...more] = read.files;
  if (file === undefined || planFile === undefined || more.length > 0) {
    throw new Refused([`came ${read.files.length} files; wanted two`, USAGE]);
  }
  return { file, planFile, json: read.options.has("json") };
}

if (
  process.argv[1] !== undefined &&
  import.meta.url.endsWith("/server/commands/size.ts") &&
  process.argv[1].endsWith("size.ts")
) {
  process.exitCode = sizeCommand(
    process.argv.slice(2),
    (text) => process.stdout.write(text),
    (line) => process.stderr.write(`${line}\n`),
  );
}
