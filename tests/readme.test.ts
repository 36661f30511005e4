import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { reportCommand } from "../server/commands/report.ts";

const top = resolve(import.meta.dirname, "..");
const readme = readFileSync(resolve(top, "README.md"), "utf8");

describe("README", () => {
  test("opens with the job in one paragraph", () => {
    const [title, , paragraph = "", blank] = readme.split("\n");
    expect(title).toBe("# Lapwater");
    expect(paragraph.length).toBeGreaterThan(300);
    expect(blank).toBe("");
  });

  test("its worked example is what the command prints", () => {
    const block = /<!-- example: [^>]*-->\n```\n([\s\S]*?)```/.exec(readme)?.[1];
    let printed = "";
    const code = reportCommand(
      [resolve(top, "sample-data/example.logbook.json")],
      (text) => {
        printed += text;
      },
      () => {},
    );
    expect(code).toBe(0);
    expect(block).toBe(printed);
  });

  test("every picture and file it points to is there", () => {
    const targets = [...readme.matchAll(/\]\(([^)]+)\)/g)].map((match) => match[1] ?? "");
    expect(targets.length).toBeGreaterThan(2);
    for (const target of targets) expect(() => readFileSync(resolve(top, target))).not.toThrow();
  });
});
