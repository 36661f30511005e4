import { expect, test, vi } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { engine, head, steaming } from "./fixtures.ts";
import { steamedApp } from "./running-app.ts";

vi.mock("../../src/analysis/analyse.ts", { spy: true });

const minutesAgo = (minutes: number) => new Date(Date.now() - minutes * 60_000).toISOString();
const inSteam = (body: unknown): string[] =>
  (body as { engines: { inSteam: { id: string }[] }[] }).engines.flatMap((of) =>
    of.inSteam.map(({ id }) => id),
  );

test("a recorder is told of the engines and of the particulars of each one's latest steaming, and nothing is reckoned for it", async () => {
  const { ask } = await steamedApp();
  await ask("POST", "/api/locomotives", { ...engine, id: "engine-2" });
  const later = { ...steaming, id: "later", startedAt: "2026-04-01T10:00:00+02:00", track: { lapM: 30 } };
  await ask("POST", "/api/steamings", later);
  vi.mocked(analyse).mockClear();
  const { status, body } = await ask("GET", "/api/footplate");
  expect(status).toBe(200);
  expect(body).toEqual({
    engines: [
      {
        locomotive: engine,
        demonstration: false,
        last: { purpose: "trial", conditions: head.conditions, track: { lapM: 30 } },
        inSteam: [],
      },
      { locomotive: { ...engine, id: "engine-2" }, demonstration: false, last: {}, inSteam: [] },
    ],
  });
  expect(analyse).not.toHaveBeenCalled();
  // the Shed reckons both
  await ask("GET", "/api/shed");
  expect(analyse).toHaveBeenCalledTimes(2);
});

test("what goes on is told: begun or written in within half an hour, and begun within the day", async () => {
  const { ask } = await steamedApp();
  const begin = (id: string, minutes: number, atS?: number) =>
    ask("POST", "/api/steamings", {
      ...head,
      id,
      startedAt: minutesAgo(minutes),
      entries: atS === undefined ? [] : [{ id: `${id} lap`, atS, kind: "lap", count: 1 }],
    });
  await begin("long and written in", 120, 110 * 60);
  await begin("long and quiet", 120, 60 * 60);
  await begin("empty and old", 45);
  await begin("yesterday's", 24 * 60, 24 * 3600);
  await begin("empty and new", 5);
  expect(inSteam((await ask("GET", "/api/footplate")).body)).toEqual([
    "long and written in",
    "empty and new",
  ]);
});
