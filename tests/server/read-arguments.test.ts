import { expect, test } from "vitest";
import { readArguments } from "../../server/commands/read-arguments.ts";

const read = (...args: string[]) => readArguments(args, { json: false, until: true });

test("files and options in any order, a value after a space or an equals sign, below nothing too", () => {
  expect(read("a.json", "--json", "b.json")).toEqual({
    files: ["a.json", "b.json"],
    options: new Map([["json", ""]]),
  });
  for (const args of [["--until", "-5"], ["--until=-5"]])
    expect(read("a.json", ...args)).toEqual({ files: ["a.json"], options: new Map([["until", "-5"]]) });
});

test.each([
  [["--colour"], "--colour: came an unknown option; wanted --json or --until"],
  [["-x"], "-x: came an unknown option; wanted --json or --until"],
  [["--until"], "--until: came without a value; wanted one"],
  [["--until="], "--until: came without a value; wanted one"],
  [["--until", "--json"], "--until: came without a value; wanted one"],
  [["--json=3"], "--json: came with 3; wanted no value"],
])("%j is answered in one line of our own words", (args, line) => {
  expect(read("a.json", ...args)).toBe(line);
});
