import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { sizeCommand } from "../../server/commands/size.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { type Sizing, sizingSchema } from "../../src/sizing/sizing-schema.ts";
import { smallPlan } from "../sizing/small-plan.ts";
import { smallEngine, smallLogbook } from "../support/small-logbook.ts";

const folder = mkdtempSync(join(tmpdir(), "lapwater-size-"));
afterAll(() => rmSync(folder, { recursive: true }));

function run(plan: unknown, logbook: unknown = smallLogbook(), ...options: string[]) {
  const [file, planFile] = [join(folder, "book.json"), join(folder, "plan.json")];
  writeFileSync(file, JSON.stringify(logbook));
  writeFileSync(planFile, typeof plan === "string" ? plan : JSON.stringify(plan));
  let out = "";
  const lines: string[] = [];
  const code = sizeCommand(
    [file, planFile, ...options],
    (text) => {
      out += text;
    },
    (line) => lines.push(line),
  );
  return { code, out, lines };
}

/** The small engine can be fed by hand unless a test says otherwise. */
const pumped = (): LogbookFile => ({
  ...smallLogbook(),
  locomotives: [{ ...smallEngine(), handPump: { mlPerStroke: 1 } }],
});

const sized = (plan: unknown, logbook = pumped()): Sizing => {
  const { code, out, lines } = run(plan, logbook, "--json");
  expect([code, lines]).toEqual([0, []]);
  return sizingSchema.parse(JSON.parse(out));
};

const mlOf = (figure: { value: number | null }): number => figure.value ?? Number.NaN;

describe("the size command", () => {
  test("prints what its schema says, key for key", () => {
    const { out } = run(smallPlan(), smallLogbook(), "--json");
    expect(sizingSchema.parse(JSON.parse(out))).toEqual(JSON.parse(out));
  });

  test("needs the bound with allowance and reserve over the usable fraction, less what the boiler gives", () => {
    const { plan, locomotiveId } = smallPlan();
    const asked = { locomotiveId, plan, reserveMl: 10, allowanceMl: 5, usableFraction: 0.8 };
    const sizing = sized(asked);
    expect(mlOf(sizing.needed)).toBeCloseTo((mlOf(sizing.bound) + 15) / 0.8, 9);
    expect(mlOf(sizing.bound)).toBeGreaterThan(mlOf(sizing.demand));
    const withBoiler = sized({ ...asked, fromBoilerMl: 12 });
    expect(mlOf(withBoiler.needed)).toBeCloseTo((mlOf(sizing.bound) + 3) / 0.8, 9);
    expect(sizing.tanks).toEqual([]);
    expect(sizing.fit).toBeNull();
  });

  test("one run alone takes the assumed spread and says so; a larger spread asks for a larger tank", () => {
    const { tanks: _, ...plan } = smallPlan();
    const sizing = sized(plan);
    expect(sizing.warnings.map(({ code }) => code)).toContain("one-run");
    expect(sizing.warnings.map(({ text }) => text).join(" ")).toContain("15 % is taken for granted");
    const wide = sized({ ...plan, spreadRelative: 0.3 });
    expect(mlOf(wide.bound)).toBeGreaterThan(mlOf(sizing.bound));
    expect(mlOf(wide.demand)).toBeCloseTo(mlOf(sizing.demand), 9);
  });

  test("solves the free dimension: the tanks then hold what they must, and a tenth less does not", () => {
    const plan = smallPlan();
    const sizing = sized(plan);
    expect(sizing.fit?.enough).toBe(true);
    const mm = sizing.fit?.solved?.mm ?? Number.NaN;
    expect(sizing.fit?.usableMl).toBeGreaterThanOrEqual(sizing.fit?.waterMl ?? Number.NaN);
    const [tank] = plan.tanks?.water ?? [];
    const shorter = sized({
      ...plan,
      tanks: { ...plan.tanks, water: [{ ...tank, length: mm - 0.1 }], solve: undefined },
    });
    expect(shorter.fit?.enough).toBe(false);
    expect(shorter.fit?.short?.closers[0]).toMatchObject({ change: "more", byMm: 0.1 });
  });

  test("says how much an impossible space falls short, in laps, mm and ml, and never a negative number", () => {
    const plan = smallPlan();
    const sizing = sized({
      ...plan,
      plan: { laps: 500 },
      tanks: { ...plan.tanks, solve: { tank: 0, dimension: "length", atMost: 60 } },
    });
    expect(sizing.fit?.solved).toMatchObject({ mm: null, why: expect.stringContaining("hold too little") });
    expect(sizing.fit?.short?.words).toMatch(/^\d+ ml short: a run of \d+ laps \(\d+ fewer\), or /);
    const narrow = sized({
      ...plan,
      tanks: { ...plan.tanks, space: { boilerOuterDiameter: 52, loadingGauge: 55 } },
    });
    expect(narrow.tanks[0]?.usable).toMatchObject({
      value: null,
      why: expect.stringContaining("too little"),
    });
    expect(narrow.warnings.map(({ code }) => code)).toContain("no-such-tank");
    expect(JSON.stringify(narrow.tanks)).not.toMatch(/:-\d/);
  });

  test("warns in words where nothing can feed under pressure", () => {
    const texts = sized(smallPlan(), smallLogbook()).warnings.filter(
      ({ code }) => code === "no-feed-under-pressure",
    );
    expect(texts[0]?.text).toContain("the fire must end before");
  });

  test("prints a sheet to read", () => {
    const { code, out } = run({ ...smallPlan(), probability: 0.999 });
    expect(code).toBe(0);
    expect(out).toMatch(/Water expected\s+\d+ \(\d+ to \d+\) ml/);
    expect(out).toContain("Suffices 99.9 times in 100");
    expect(out).not.toMatch(/NaN|undefined|Infinity|strokes strokes| 1$/m);
  });

  test("the sheet says how large each tank is, and ends with the cautions", () => {
    const well = { kind: "well" as const, length: 60, width: 28, height: 20 };
    const sides = { kind: "side-pair" as const, length: 80, height: 25.4, base: -6 };
    const space = { boilerOuterDiameter: 52, loadingGauge: 96 };
    const { out } = run({ ...smallPlan(), tanks: { space, water: [sides, well] } });
    expect(out).toMatch(/^well tank .* ml to use of \d+ ml; 60 x 28 x 20 mm outside$/m);
    expect(out).toMatch(/^side tanks .* ml; 80 x \d+(\.\d)? x 25.4 mm outside, each$/m);
    for (const words of ["Never above working pressure.", "Mind eyes and hands.", "does not say that a"]) {
      expect(out).toContain(words);
    }
  });

  test.each([
    [
      { ...smallPlan(), plan: {} },
      "plan: came an object with no keys; wanted one of laps, minutes and distanceM",
    ],
    [{ ...smallPlan(), plan: { laps: 3, minutes: 4 } }, "plan: came an object with laps, minutes"],
    [{ ...smallPlan(), colour: "red" }, "colour: came an unknown key"],
    [{ ...smallPlan(), locomotiveId: "other" }, "locomotiveId: came other; wanted one of small"],
    [{ ...smallPlan(), steamings: ["none"] }, "steamings[0]: came none; wanted one of small-run"],
    [
      { ...smallPlan(), steamings: ["small-run", "small-run"] },
      'steamings[1]: came the text "small-run"; wanted each steaming once',
    ],
    [{ ...smallPlan(), probability: 2 }, "probability: came 2; wanted a number of at most 0.999"],
    [
      { ...smallPlan(), tanks: { water: [{ kind: "well", length: "long", width: 3, height: 3 }] } },
      'tanks.water[0].length: came the text "long"; wanted a length such as',
    ],
    [
      { ...smallPlan(), tanks: { water: [{ kind: "well", length: -4, width: 3, height: 3 }] } },
      "tanks.water[0].length: came -4; wanted a length of more than 0",
    ],
    [{ ...smallPlan(), tanks: { ...smallPlan().tanks, scale: "small" } }, "tanks.scale: came the text"],
    [
      { ...smallPlan(), tanks: { ...smallPlan().tanks, scale: "1:1000" } },
      'tanks.scale: came the text "1:1000"; wanted a scale from 1:250 to 1:1',
    ],
    [
      { ...smallPlan(), tanks: { water: [{ kind: "well", length: "6 ft 13 in", width: 3, height: 3 }] } },
      'tanks.water[0].length: came the text "6 ft 13 in"; wanted fewer than 12 inches after feet',
    ],
    [{ ...smallPlan(), plan: { laps: -2 } }, "plan.laps: came -2; wanted"],
    ["not json", "wanted JSON"],
  ])("refuses a bad plan with its line and nothing on the output (%#)", (plan, line) => {
    const { code, out, lines } = run(plan, smallLogbook(), "--json");
    expect([code, out]).toEqual([1, ""]);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(line);
  });

  test("refuses a bad logbook, a file that is not there and one file too few in lines", () => {
    expect(run(smallPlan(), { ...smallLogbook(), version: 2 }).lines).toEqual(["version: came 2; wanted 1"]);
    const [engine] = smallLogbook().locomotives;
    const below = { ...smallLogbook(), locomotives: [{ ...engine, workingPressureBarG: -3 }] };
    expect(run(smallPlan(), below).lines).toEqual([
      "locomotives[0].workingPressureBarG: came -3; wanted a number of more than 0",
    ]);
    const lines: string[] = [];
    const complain = (line: string) => void lines.push(line);
    expect(sizeCommand([join(folder, "none.json"), join(folder, "plan.json")], () => {}, complain)).toBe(1);
    expect(lines[0]).toContain("cannot be read");
    expect(sizeCommand([join(folder, "book.json")], () => {}, complain)).toBe(1);
    expect(lines.at(-1)).toContain("usage: npm run --silent size");
  });
});
