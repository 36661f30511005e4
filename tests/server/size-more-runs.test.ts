import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, expect, test } from "vitest";
import { sizeCommand } from "../../server/commands/size.ts";

const folder = mkdtempSync(join(tmpdir(), "lapwater-size-"));
afterAll(() => rmSync(folder, { recursive: true }));
const logbook = resolve(import.meta.dirname, "../../sample-data/demonstration.logbook.json");

function sized(plan: object): { bound: { value: number }; withMoreRuns: { boundMl: number | null }[] } {
  const file = join(folder, "plan.json");
  writeFileSync(file, JSON.stringify({ locomotiveId: "tansy", plan: { laps: 30 }, ...plan }));
  let out = "";
  const lines: string[] = [];
  const code = sizeCommand(
    [logbook, file, "--json"],
    (text) => {
      out += text;
    },
    (line) => lines.push(line),
  );
  expect(lines).toEqual([]);
  expect(code).toBe(0);
  return JSON.parse(out);
}

test("more runs never move the bound further out, at any probability the plan may ask", () => {
  for (const probability of [0.5, 0.8, 0.95, 0.999]) {
    const { bound, withMoreRuns } = sized({ probability });
    expect(withMoreRuns).toHaveLength(3);
    for (const { boundMl } of withMoreRuns) expect(boundMl ?? Number.NaN).toBeLessThanOrEqual(bound.value);
  }
});

test("one run alone, with its spread taken for granted, promises nothing of more runs", () => {
  expect(sized({ steamings: ["tansy-2026-07-05"] }).withMoreRuns).toEqual([]);
});
