import { describe, expect, test } from "vitest";
import { problemLine } from "../../src/logbook/problems.ts";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { smallEngine, smallLogbook, smallSteaming } from "../support/small-logbook.ts";

function problemsWith(change: (file: ReturnType<typeof smallLogbook>) => void): string[] {
  const file = smallLogbook();
  change(file);
  const reading = readLogbook(JSON.stringify(file));
  return reading.ok ? [] : reading.problems.map(problemLine);
}

describe("reading a logbook file", () => {
  test("a good file is read as it was written", () => {
    const file = smallLogbook();
    const reading = readLogbook(JSON.stringify(file));
    expect(reading).toEqual({ ok: true, value: file });
  });

  test("a byte order mark at the front is passed over", () => {
    expect(readLogbook(`\uFEFF${JSON.stringify(smallLogbook())}`).ok).toBe(true);
  });

  test("text that is not JSON is one problem that says so", () => {
    const reading = readLogbook("{ format:");
    expect(reading.ok ? [] : reading.problems.map((problem) => problem.wanted)).toEqual(["JSON"]);
  });

  test("an unknown key is refused by its path", () => {
    expect(problemsWith((file) => Object.assign(file.steamings[0]?.entries[1] ?? {}, { bar: 3 }))).toEqual([
      "steamings[0].entries[1].bar: came an unknown key with 3; wanted only keys that the format names",
    ]);
  });

  test("a text where a number belongs, and a missing key, name path, what came and what is wanted", () => {
    const lines = problemsWith((file) => {
      Object.assign(file.steamings[0]?.entries[1] ?? {}, { barG: "3.2" });
      Object.assign(file.locomotives[0] ?? {}, { workingPressureBarG: undefined });
    });
    expect(lines).toContain('steamings[0].entries[1].barG: came the text "3.2"; wanted a number');
    expect(lines).toContain("locomotives[0].workingPressureBarG: came nothing; wanted a number");
  });

  test("a null reading is refused, never taken as 0", () => {
    expect(
      problemsWith((file) => Object.assign(file.steamings[0]?.entries[1] ?? {}, { barG: null })),
    ).toEqual(["steamings[0].entries[1].barG: came null; wanted a number"]);
  });

  test("a kind of entry nobody knows lists those that are known", () => {
    const [line] = problemsWith((file) =>
      Object.assign(file.steamings[0]?.entries[1] ?? {}, { kind: "presure" }),
    );
    expect(line).toContain('steamings[0].entries[1].kind: came the text "presure"');
    expect(line).toContain('"pressure"');
  });

  test("a moment without its offset is refused with an example", () => {
    const [line] = problemsWith((file) =>
      Object.assign(file.steamings[0] ?? {}, { startedAt: "2026-05-01T10:00:00" }),
    );
    expect(line).toContain("steamings[0].startedAt");
    expect(line).toContain("2026-03-14T10:14:00+01:00");
  });

  test("fuel needs grams or millilitres, not both and not neither", () => {
    const entry = { kind: "fuel", action: "added", atS: 5 } as const;
    expect(problemsWith((file) => file.steamings[0]?.entries.push({ ...entry }))).toHaveLength(1);
    expect(problemsWith((file) => file.steamings[0]?.entries.push({ ...entry, g: 1, ml: 1 }))).toHaveLength(
      1,
    );
    expect(problemsWith((file) => file.steamings[0]?.entries.push({ ...entry, g: 1 }))).toEqual([]);
  });

  test("an engine that is not in the file, a fitting the engine has not, and an id used twice are all listed at once", () => {
    const lines = problemsWith((file) => {
      file.steamings.push({ ...smallSteaming(), locomotiveId: "nobody" });
      file.steamings[0]?.entries.push({ kind: "drip", fitting: "whistle", g: 1, overS: 60, atS: 600 });
    });
    expect(lines).toEqual([
      "steamings[1].id: came small-run a second time; wanted an id used once",
      "steamings[0].entries[8].fitting: came whistle; wanted a fitting of small: left-gland",
      "steamings[1].locomotiveId: came nobody; wanted one of small",
    ]);
  });

  test("an engine that is known elsewhere may be referred to", () => {
    const file = { ...smallLogbook(), locomotives: [] };
    expect(readLogbook(JSON.stringify(file)).ok).toBe(false);
    expect(readLogbook(JSON.stringify(file), [smallEngine()]).ok).toBe(true);
  });

  test("a table boiler whose levels do not rise is refused", () => {
    const [line] = problemsWith((file) => {
      const engine = file.locomotives[0];
      if (engine !== undefined) {
        engine.boiler.shape = {
          kind: "table",
          totalMl: 300,
          points: [
            { levelMm: 10, waterMl: 50 },
            { levelMm: 5, waterMl: 100 },
          ],
        };
      }
    });
    expect(line).toContain("locomotives[0].boiler.shape.points");
    expect(line).toContain("rising levelMm");
  });
});
