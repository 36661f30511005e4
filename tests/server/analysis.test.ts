import { existsSync, statSync } from "node:fs";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { chartSchema, comparisonSchema, shedSchema, sheetSchema } from "../../server/routes/shapes.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { type Report, reportSchema } from "../../src/analysis/report-schema.ts";
import { seriesOf } from "../../src/analysis/series.ts";
import { engine, entries, head, steaming } from "./fixtures.ts";
import { steamedApp } from "./running-app.ts";

const url = "/api/steamings/steaming-1";
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

test("the report is the analysis of what is kept, in the contract's form", async () => {
  const { ask } = await steamedApp();
  const report = await ask("GET", `${url}/report`);
  expect(report.status).toBe(200);
  expect(reportSchema.parse(report.body)).toEqual(asJson(reportOf(analyse(engine, steaming))));
});

test("untilS uses only what had been logged by then", async () => {
  const { ask } = await steamedApp();
  const until = (await ask("GET", `${url}/report?untilS=850`)).body as Report;
  expect(until).toEqual(asJson(reportOf(analyse(engine, steaming, { untilS: 850 }))));
  expect(until.totals?.laps).toBe(6);
});

test("a report follows a correction, a deletion and a change of the engine", async () => {
  const { ask } = await steamedApp();
  const laps = async () => ((await ask("GET", `${url}/report`)).body as Report).totals?.laps;
  const metres = async () => ((await ask("GET", `${url}/report`)).body as Report).totals?.distanceM;
  expect(await laps()).toBe(9);
  await ask("PUT", `${url}/entries/e12?correction=true`, { atS: 900, kind: "lap", count: 2 });
  expect(await laps()).toBe(8);
  await ask("DELETE", `${url}/entries/e12`);
  expect(await laps()).toBe(6);
  expect(await metres()).toBe(120);
  await ask("PUT", url, { ...head, track: { lapM: 25 } });
  expect(await metres()).toBe(150);
  const before = (await ask("GET", `${url}/report`)).body as Report;
  const wider = { ...engine.boiler, shape: { ...engine.boiler.shape, innerDiameterMm: 60 } };
  await ask("PUT", "/api/locomotives/engine-1", { ...engine, boiler: wider });
  const after = (await ask("GET", `${url}/report`)).body as Report;
  expect(after.totals?.waterDrawn.value).toBeGreaterThan(Number(before.totals?.waterDrawn.value));
});

test("the sheet holds all that a test sheet shows", async () => {
  const { ask } = await steamedApp();
  const sheet = sheetSchema.parse((await ask("GET", `${url}/sheet`)).body);
  const analysis = analyse(engine, steaming);
  expect(sheet).toEqual(
    asJson({
      steaming: head,
      held: null,
      // lit at 10 s, out at 1020
      burntForS: 1010,
      pumpTimesDrawn: null,
      locomotive: engine,
      report: reportOf(analysis),
      series: seriesOf(analysis),
      entries,
      logged: [],
      history: [],
    }),
  );
});

test("the shed shows each engine with its steamings and what each came to", async () => {
  const { ask } = await steamedApp();
  const shed = shedSchema.parse((await ask("GET", "/api/shed")).body);
  const report = reportOf(analyse(engine, steaming));
  expect(shed.engines).toHaveLength(1);
  expect(shed.engines[0]?.steamings).toEqual([
    {
      id: "steaming-1",
      locomotiveId: "engine-1",
      title: "First trial",
      purpose: "trial",
      startedAt: head.startedAt,
      entries: entries.length,
      laps: 9,
      figures: asJson({
        steamingRate: { ...report.perMinuteRunning?.water, unit: "g/min" },
        waterPerLap: report.perLap?.water,
        fuelPerLap: report.perLap?.fuel,
        efficiency: report.heat?.efficiency,
      }),
    },
  ]);
});

test("a steaming with nothing in it stands in the shed with the reasons why it has no figures", async () => {
  const { ask } = await steamedApp();
  await ask("POST", "/api/steamings", { ...head, id: "empty", entries: [] });
  const shed = shedSchema.parse((await ask("GET", "/api/shed")).body);
  const empty = shed.engines[0]?.steamings.find(({ id }) => id === "empty");
  expect(empty?.laps).toBe(0);
  expect(Object.values(empty?.figures ?? {})).toEqual([
    { value: null, why: "nothing logged gives a steaming rate" },
    { value: null, why: "nothing logged gives the water of a lap" },
    { value: null, why: "nothing logged gives the fuel of a lap" },
    { value: null, why: "nothing logged gives an efficiency" },
  ]);
});

test("a chart of few readings has every one of them, from hand and sensor, in order", async () => {
  const { ask } = await steamedApp();
  const trace = { channel: "pressureBarG", startS: 500, everyS: 10, values: [1.5, null, 1.7] };
  await ask("POST", "/api/steamings", { ...steaming, id: "traced", traces: [trace] });
  const chart = await ask("GET", "/api/steamings/traced/chart?channel=pressureBarG&fromS=450&toS=700");
  expect(chartSchema.parse(chart.body)).toEqual({
    channel: "pressureBarG",
    unit: "bar",
    raw: true,
    points: [
      [500, 1.5],
      [520, 1.7],
      [600, 2.8],
    ],
  });
});

test("a chart of many readings keeps every peak, at any width", async () => {
  const { ask } = await steamedApp();
  const values = Array.from({ length: 30_000 }, (_, i) => Math.round(1000 * Math.sin(i / 700)) / 1000);
  values[12_345] = 9;
  values[23_456] = -9;
  const trace = { channel: "temperatureC", startS: 0, everyS: 0.1, values };
  await ask("POST", "/api/steamings", { ...steaming, id: "long", traces: [trace] });
  for (const width of [2, 7, 100, 1000]) {
    const address = `/api/steamings/long/chart?channel=temperatureC&width=${width}`;
    const chart = chartSchema.parse((await ask("GET", address)).body);
    expect(chart.raw).toBe(false);
    expect(chart.points).toHaveLength(width);
    const span = 2999.9 / width;
    for (const [atS, lowest, highest] of chart.points) {
      const own = values.filter(
        (_, i) => Math.min(width - 1, Math.floor((i * 0.1) / span)) === Math.floor(atS / span),
      );
      expect([lowest, highest]).toEqual([Math.min(...own), Math.max(...own)]);
    }
  }
});

test("a zoomed window of a long trace has the raw readings of that window alone", async () => {
  const { ask } = await steamedApp();
  const values = Array.from({ length: 30_000 }, (_, i) => i);
  const trace = { channel: "massG", startS: 100, everyS: 0.5, values };
  await ask("POST", "/api/steamings", { ...steaming, id: "long", traces: [trace] });
  const chart = await ask("GET", "/api/steamings/long/chart?channel=massG&fromS=5000.2&toS=5002&width=400");
  expect(chart.body).toMatchObject({
    raw: true,
    points: [
      [5000.5, 9801],
      [5001, 9802],
      [5001.5, 9803],
      [5002, 9804],
    ],
  });
});

test("a window that ends before it begins is refused", async () => {
  const { ask } = await steamedApp();
  const answer = await ask("GET", `${url}/chart?channel=massG&fromS=5&toS=5`);
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ path: "query.toS" });
});

test("runs are compared with the first, on the clock that is asked for", async () => {
  const { ask } = await steamedApp();
  await ask("POST", "/api/steamings", { ...steaming, id: "steaming-2" });
  const body = { steamings: ["steaming-1", "steaming-2"], alignBy: "first-lap" };
  const comparison = comparisonSchema.parse((await ask("POST", "/api/compare", body)).body);
  expect(comparison.runs.map(({ steamingId, zeroS }) => [steamingId, zeroS])).toEqual([
    ["steaming-1", 700],
    ["steaming-2", 700],
  ]);
  expect(comparison.differences.map(({ toldApart }) => toldApart)).not.toContain(true);
});

test("a comparison needs two different steamings that are there, and no more than twelve", async () => {
  const { ask } = await steamedApp();
  const compare = (steamings: string[], alignBy = "lit") =>
    ask("POST", "/api/compare", { steamings, alignBy });
  expect((await compare(["steaming-1"])).body).toMatchObject({ code: "invalid", path: "steamings" });
  expect((await compare(["steaming-1", "steaming-1"])).body).toMatchObject({ path: "steamings" });
  expect((await compare(Array.from({ length: 13 }, (_, i) => `s${i}`))).status).toBe(400);
  expect((await compare(["steaming-1", "steaming-2"], "moon")).body).toMatchObject({ path: "alignBy" });
  expect((await compare(["steaming-1", "steaming-2"])).body).toMatchObject({ code: "no-such-steaming" });
});

test.each(["report", "sheet", "chart?channel=massG"])("the %s of no steaming is not there", async (what) => {
  const { ask } = await steamedApp();
  const answer = await ask("GET", `/api/steamings/none/${what}`);
  expect(answer.status).toBe(404);
  expect(answer.body).toMatchObject({ code: "no-such-steaming" });
});

test("a backup is a database that stands alone and holds all that was kept", async () => {
  const { ask, folder } = await steamedApp();
  const answer = await ask("POST", "/api/backups");
  expect(answer.status).toBe(201);
  const { file, bytes } = answer.body as { file: string; bytes: number };
  expect(file.startsWith(folder)).toBe(true);
  expect(statSync(file).size).toBe(bytes);
  const copy = new Database(file, { readonly: true });
  expect(copy.prepare("SELECT count(*) FROM entries").pluck().get()).toBe(entries.length);
  expect(copy.pragma("integrity_check", { simple: true })).toBe("ok");
  copy.close();
  expect(existsSync(`${file}-wal`)).toBe(false);
});
