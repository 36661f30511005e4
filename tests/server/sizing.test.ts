import { expect, test } from "vitest";
import { modelsOf } from "../../src/sizing/models.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";
import { runFiguresSchema } from "../../src/sizing/run-figures-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { sizingSchema } from "../../src/sizing/sizing-schema.ts";
import { smallPlan } from "../sizing/small-plan.ts";
import { engine } from "./fixtures.ts";
import { runningApp, steamedApp } from "./running-app.ts";

const plan = { ...smallPlan(), locomotiveId: engine.id };
const address = `/api/locomotives/${engine.id}/plans`;

test("POST /api/sizing answers as its schema says, and as the page reckons from the run figures", async () => {
  const { ask } = await steamedApp();
  const answer = await ask("POST", "/api/sizing", plan);
  expect(answer.status).toBe(200);
  expect(sizingSchema.parse(answer.body)).toEqual(answer.body);
  const runs = await ask("GET", `/api/locomotives/${engine.id}/run-figures`);
  expect((runs.body as unknown[]).map((run) => runFiguresSchema.parse(run))).toEqual(runs.body);
  const { sizing } = sizeUp(engine, plan, modelsOf(runs.body as RunFigures[], plan));
  expect(JSON.parse(JSON.stringify(sizing))).toEqual(answer.body);
});

test("an engine or a steaming that is not there is refused by name", async () => {
  const { ask } = await steamedApp();
  expect((await ask("POST", "/api/sizing", { ...plan, locomotiveId: "other" })).status).toBe(404);
  const answer = await ask("POST", "/api/sizing", { ...plan, steamings: ["other"] });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "invalid", path: "steamings[0]" });
});

test("run figures follow a change of the steaming", async () => {
  const { ask } = await steamedApp();
  const figures = async () => (await ask("GET", `/api/locomotives/${engine.id}/run-figures`)).body;
  const before = await figures();
  await ask("PUT", "/api/steamings/steaming-1/entries/e99", { id: "e99", kind: "lap", count: 4, atS: 1015 });
  expect(await figures()).not.toEqual(before);
});

test("plans are kept by name, listed, replaced and removed", async () => {
  const { ask } = await steamedApp();
  expect((await ask("PUT", `${address}/Long%20side%20tanks`, plan)).status).toBe(201);
  expect((await ask("PUT", `${address}/Long%20side%20tanks`, plan)).status).toBe(200);
  const shorter = { ...plan, plan: { laps: 10 } };
  expect((await ask("PUT", `${address}/Short`, shorter)).status).toBe(201);
  expect((await ask("GET", address)).body).toEqual([
    { name: "Long side tanks", plan },
    { name: "Short", plan: shorter },
  ]);
  expect((await ask("GET", `${address}/Short`)).body).toEqual(shorter);
  expect((await ask("DELETE", `${address}/Short`)).status).toBe(204);
  const gone = await ask("GET", `${address}/Short`);
  expect(gone.status).toBe(404);
  expect(gone.body).toMatchObject({ code: "no-such-plan" });
  expect((await ask("DELETE", `${address}/Short`)).status).toBe(404);
});

test("a plan goes with its engine, and one of another engine or of none is refused", async () => {
  const { ask } = await steamedApp();
  await ask("PUT", `${address}/Kept`, plan);
  const other = await ask("PUT", `${address}/Kept`, { ...plan, locomotiveId: "other" });
  expect(other.body).toMatchObject({ code: "invalid", path: "locomotiveId" });
  expect((await ask("PUT", "/api/locomotives/other/plans/Kept", plan)).status).toBe(404);
  expect((await ask("PUT", `${address}/Kept`, { ...plan, plan: {} })).status).toBe(400);
  await ask("DELETE", `/api/locomotives/${engine.id}`);
  await ask("POST", "/api/locomotives", engine);
  expect((await ask("GET", address)).body).toEqual([]);
});

test("an engine without steamings has no demand, and says why", async () => {
  const { ask } = await runningApp();
  await ask("POST", "/api/locomotives", engine);
  const { body } = await ask("POST", "/api/sizing", plan);
  expect(body).toMatchObject({ demand: { value: null, why: "no steaming was chosen" }, runs: [] });
});
