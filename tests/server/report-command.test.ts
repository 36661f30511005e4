import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { reportCommand } from "../../server/commands/report.ts";
import { reportSchema } from "../../src/analysis/report-schema.ts";
import { smallLogbook } from "../support/small-logbook.ts";

const folder = mkdtempSync(join(tmpdir(), "lapwater-report-"));
afterAll(() => rmSync(folder, { recursive: true }));

function run(content: string, ...options: string[]) {
  const file = join(folder, "book.json");
  writeFileSync(file, content);
  let out = "";
  const lines: string[] = [];
  const code = reportCommand(
    [file, ...options],
    (text) => {
      out += text;
    },
    (line) => lines.push(line),
  );
  return { code, out, lines };
}

describe("the report command", () => {
  test("prints an array with a report for each steaming that keeps to its schema, key for key", () => {
    const { code, out } = run(JSON.stringify(smallLogbook()), "--json");
    expect(code).toBe(0);
    const reports: unknown[] = JSON.parse(out);
    expect(reports).toHaveLength(1);
    expect(reportSchema.parse(reports[0])).toEqual(reports[0]);
  });

  test("prints a test sheet to read, with ranges and cautions", () => {
    const { code, out } = run(JSON.stringify(smallLogbook()));
    expect(code).toBe(0);
    expect(out).toMatch(/running 1:00 to 8:20 \(inferred\)\s+[\d.]+ \([\d.]+ to [\d.]+\) g\/min/);
    expect(out).toContain("Never above working pressure");
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("refuses a file with every problem on a line of its own and nothing on the output", () => {
    const bad = JSON.stringify({ ...smallLogbook(), version: 2, extra: true });
    const { code, out, lines } = run(bad, "--json");
    expect(code).toBe(1);
    expect(out).toBe("");
    expect(lines).toEqual([
      "version: came 2; wanted 1",
      "extra: came an unknown key with true; wanted only keys that the format names",
    ]);
  });

  test("refuses what is not JSON, a file that is not there, an unknown steaming and a wrong option in a line", () => {
    expect(run("not json").lines).toHaveLength(1);
    expect(run(JSON.stringify(smallLogbook()), "--steaming", "other").lines).toEqual([
      "--steaming: came other; wanted one of small-run",
    ]);
    expect(run(JSON.stringify(smallLogbook()), "--until", "soon").lines[0]).toContain("came soon");
    expect(run(JSON.stringify(smallLogbook()), "--colour").code).toBe(1);
    const lines: string[] = [];
    expect(
      reportCommand(
        [join(folder, "none.json")],
        () => {},
        (line) => lines.push(line),
      ),
    ).toBe(1);
    expect(lines).toHaveLength(1);
  });

  test("with --until before anything was logged gives an empty sheet and says so", () => {
    const empty = run(JSON.stringify(smallLogbook()), "--json", "--until", "-5");
    expect(empty).toMatchObject({ code: 0, lines: ["--until: nothing had been logged by -5 s"] });
    expect(run(JSON.stringify(smallLogbook()), "--json", "--until", "0").lines).toEqual([]);
  });

  test("with --until uses only what had been logged by then", () => {
    const { out } = run(JSON.stringify(smallLogbook()), "--json", "--until", "60");
    const [report] = JSON.parse(out);
    expect(report.totals.laps).toBe(0);
    const phases = report.phases.map((phase: { name: string; toS: number }) => [phase.name, phase.toS]);
    expect(phases).toEqual([["standing", 60]]);
  });
});
