import { expect, test } from "vitest";
import { bookSchema } from "../../src/care/book-schema.ts";
import { careSchema } from "../../src/care/care-schema.ts";
import { service } from "./fixtures.ts";
import { runningApp, steamedApp } from "./running-app.ts";

const careAt = "/api/locomotives/engine-1/care";

test("the care of an engine has the form that the document promises, and so has its book", async () => {
  const { ask } = await steamedApp();
  const care = careSchema.parse((await ask("GET", careAt)).body);
  expect(care.locomotiveId).toBe("engine-1");
  // 1.2 g caught in a minute on a scale of 1 g, which alone is not beyond doubt over the usual limit of 0.5 g/min
  const gland = care.fittings.find((one) => one.fitting === "gland-left");
  expect(gland).toMatchObject({ state: "watch", readings: 1, slope: { value: null }, change: null });
  const book = bookSchema.parse((await ask("GET", "/api/locomotives/engine-1/book")).body);
  expect(book.fittings.map(({ fitting }) => fitting.id)).toEqual(["gland-left", "clack"]);
  expect(book.fittings[0]?.drips).toHaveLength(1);
});

test("an engine that is not there has no care and no services", async () => {
  const { ask } = await runningApp();
  for (const address of [
    "/api/locomotives/none/care",
    "/api/locomotives/none/book",
    "/api/services?locomotiveId=none",
  ]) {
    const answer = await ask("GET", address);
    expect([address, answer.status]).toEqual([address, 404]);
    expect(answer.body).toMatchObject({ code: "no-such-locomotive" });
  }
});

test("a service that is recorded starts its fitting afresh, and taken back brings the readings back", async () => {
  const { ask } = await steamedApp();
  const readings = async () => {
    const care = careSchema.parse((await ask("GET", careAt)).body);
    return care.fittings.find((one) => one.fitting === "gland-left")?.readings;
  };
  expect(await readings()).toBe(1);
  expect((await ask("POST", "/api/services", service)).status).toBe(201);
  expect(await readings()).toBe(0);
  expect((await ask("DELETE", `/api/services/${service.id}`)).status).toBe(204);
  expect(await readings()).toBe(1);
});

test("services are listed, corrected, and the same one again changes nothing", async () => {
  const { ask } = await steamedApp();
  await ask("POST", "/api/services", service);
  expect((await ask("POST", "/api/services", service)).status).toBe(200);
  const other = await ask("POST", "/api/services", { ...service, what: "cleaned" });
  expect(other.status).toBe(409);
  expect(other.body).toMatchObject({ code: "service-differs", path: "id" });
  const noted = { ...service, note: "two turns of yarn" };
  expect((await ask("PUT", `/api/services/${service.id}`, noted)).status).toBe(200);
  expect((await ask("GET", "/api/services?locomotiveId=engine-1")).body).toEqual([noted]);
  expect((await ask("GET", "/api/services")).body).toEqual([noted]);
  expect((await ask("PUT", "/api/services/another", service)).status).toBe(400);
  const gone = await ask("DELETE", "/api/services/none");
  expect(gone.status).toBe(404);
  expect(gone.body).toMatchObject({ code: "no-such-service" });
});

test("a service of a fitting or an engine that is not there is refused by name", async () => {
  const { ask } = await steamedApp();
  const fitting = await ask("POST", "/api/services", { ...service, fittingId: "dome" });
  expect(fitting.status).toBe(400);
  expect(fitting.body).toMatchObject({ code: "invalid", path: "fittingId" });
  const engine = await ask("POST", "/api/services", { ...service, locomotiveId: "none" });
  expect(engine.body).toMatchObject({ code: "invalid", path: "locomotiveId" });
});
