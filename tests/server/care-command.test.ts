import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { careCommand } from "../../server/commands/care.ts";
import { careSchema } from "../../src/care/care-schema.ts";
import { outingsToFalseAlarm } from "../../src/care/indicator-course.ts";
import { engine, logbook, service } from "./fixtures.ts";
import { emptyFolder } from "./running-app.ts";

function run(file: unknown, ...options: string[]) {
  const path = join(emptyFolder(), "logbook.json");
  writeFileSync(path, JSON.stringify(file));
  const out: string[] = [];
  const complaints: string[] = [];
  const code = careCommand(
    [path, ...options],
    (text) => out.push(text),
    (line) => complaints.push(line),
  );
  return { code, out: out.join(""), complaints };
}

test("--json prints one object for each engine, in the form of its schema", () => {
  // with a scale of a twentieth of a gram the one catch is over its limit beyond doubt
  const sharp = { ...engine, instruments: { ...engine.instruments, massReadingG: 0.05 } };
  const { code, out, complaints } = run({ ...logbook, locomotives: [sharp], services: [] }, "--json");
  expect({ code, complaints }).toEqual({ code: 0, complaints: [] });
  const cares = z.array(careSchema).parse(JSON.parse(out));
  expect(cares.map(({ locomotiveId }) => locomotiveId)).toEqual(["engine-1"]);
  expect(cares[0]?.jobs).toEqual([{ takeOff: [], do: ["gland-left"], alsoWorth: [] }]);
});

test("an engine without fittings or steamings is said so, and is no error", () => {
  const { code, out } = run({
    ...logbook,
    locomotives: [{ ...engine, fittings: [] }],
    steamings: [],
    services: [],
  });
  expect(code).toBe(0);
  expect(out).toContain("No fittings are listed for this engine.");
});

test("the text names each fitting with its state, and says what the program does not say", () => {
  const { out } = run(logbook);
  expect(out).toMatch(/^Test engine: 0\.\d h in steam logged\n/);
  expect(out).toContain("WATCH   Left gland. Neither caught nor looked at in 0.0 h in steam");
  expect(out).toContain("repacked 2026-03-15: Cannot be judged yet: nothing was caught since");
  expect(out).toContain("it never says that a boiler is fit or safe");
});

test("the text tells every service, and how often the engine's own figures give a false alarm", () => {
  const { out } = run({
    ...logbook,
    services: [service, { ...service, id: "earlier", at: "2026-02-01T10:00:00+00:00", what: "nipped-up" }],
  });
  expect(out).toContain("repacked 2026-03-15: ");
  expect(out).toMatch(/nipped up 2026-02-01.*: Cannot be judged/);
  expect(out).toContain(`a false alarm once in about ${Math.round(outingsToFalseAlarm)} outings`);
});

test("the text says that she must lose her pressure first, wherever something is to be taken off", () => {
  const sharp = { ...engine, instruments: { ...engine.instruments, massReadingG: 0.05 } };
  const { out } = run({ ...logbook, locomotives: [sharp], services: [] });
  expect(out).toMatch(
    /Before the next steaming\n {2}Let her cool and lose all pressure before anything is taken off\. .*not proof enough/,
  );
  expect(run({ ...logbook, steamings: [], services: [] }).out).not.toContain("Let her cool");
});

test("a file that is not valid costs a line a problem, exit 1 and no output", () => {
  const { code, out, complaints } = run({ ...logbook, services: [{ ...service, fittingId: "dome" }] });
  expect({ code, out }).toEqual({ code: 1, out: "" });
  expect(complaints).toEqual([expect.stringMatching(/^services\[0\]\.fittingId: .*dome.*gland-left, clack/)]);
  expect(run(logbook, "--yaml").complaints.at(-1)).toMatch(/^usage: npm run --silent care/);
});
