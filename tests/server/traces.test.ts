import { expect, test } from "vitest";
import { head } from "./fixtures.ts";
import { type RunningApp, steamedApp } from "./running-app.ts";

const startedS = Date.parse(head.startedAt) / 1000;
const url = "/api/steamings/steaming-1/traces";
const post = ({ ask }: RunningApp, pack: unknown) =>
  ask("POST", url, pack, { "content-type": "application/senml+json" });
const tracesOf = ({ store }: RunningApp) => store.traces.ofSteaming("steaming-1");

test("a pack with base fields becomes a trace on the steaming's own clock, in its unit", async () => {
  const running = await steamedApp();
  const answer = await post(running, [
    { bn: "urn:dev:mac:0024befffe804ff1:", bt: startedS + 60, bu: "Pa", n: "pressureBarG", v: 50_000 },
    { n: "pressureBarG", t: 1, v: 51_000 },
    { n: "pressureBarG", t: 3, v: 53_000 },
  ]);
  expect(answer.status).toBe(201);
  expect(answer.body).toEqual({
    traces: [{ channel: "pressureBarG", startS: 60, everyS: 1, samples: 4, added: 3 }],
  });
  expect(tracesOf(running)).toEqual([
    { channel: "pressureBarG", startS: 60, everyS: 1, values: [0.5, 0.51, null, 0.53] },
  ]);
});

test("several channels of one pack become a trace each", async () => {
  const running = await steamedApp();
  await post(running, [
    { bn: "tank/", bt: startedS, n: "levelMm", u: "m", v: 0.038 },
    { n: "massG", u: "kg", v: 1.5 },
    { n: "temperatureC", u: "K", v: 293.15 },
    { n: "levelMm", u: "m", t: 2, v: 0.0375 },
    { n: "massG", u: "kg", t: 2, v: 1.499 },
    { n: "temperatureC", u: "K", t: 2, v: 294.15 },
  ]);
  expect(tracesOf(running)).toEqual([
    { channel: "levelMm", startS: 0, everyS: 2, values: [38, 37.5] },
    { channel: "massG", startS: 0, everyS: 2, values: [1500, 1499] },
    { channel: "temperatureC", startS: 0, everyS: 2, values: [20, 21] },
  ]);
});

test("the same pack again adds nothing, and the next one continues the trace", async () => {
  const running = await steamedApp();
  const pack = (from: number, values: number[]) =>
    values.map((v, i) => ({ n: "pressureBarG", u: "bar", t: startedS + from + i, v }));
  await post(running, pack(0, [1, 1.1, 1.2]));
  const again = await post(running, pack(0, [1, 1.1, 1.2]));
  expect(again.status).toBe(200);
  expect(again.body).toMatchObject({ traces: [{ added: 0 }] });
  const overlapping = await post(running, pack(2, [1.2, 1.3]));
  expect(overlapping.body).toMatchObject({ traces: [{ added: 1 }] });
  await post(running, pack(6, [1.6]));
  await post(running, pack(-1, [0.9]));
  expect(tracesOf(running)).toEqual([
    {
      channel: "pressureBarG",
      startS: -1,
      everyS: 1,
      values: [0.9, 1, 1.1, 1.2, 1.3, null, null, 1.6],
    },
  ]);
});

test("another value at a moment that is kept is refused, and the trace stays", async () => {
  const running = await steamedApp();
  const pack = (v: number) => [
    { n: "levelMm", t: startedS, v: 38 },
    { n: "levelMm", t: startedS + 1, v },
  ];
  await post(running, pack(37));
  const answer = await post(running, pack(36));
  expect(answer.status).toBe(409);
  expect(answer.body).toMatchObject({ code: "trace-differs" });
  expect(tracesOf(running)[0]?.values).toEqual([38, 37]);
});

test("a long trace is continued across the ends of its blocks without a change of what was there", async () => {
  const running = await steamedApp();
  const wave = Array.from({ length: 10_000 }, (_, i) => Math.round(1000 + 1000 * Math.sin(i / 50)) / 1000);
  for (let from = 0; from < wave.length; from += 3000) {
    const pack = wave
      .slice(from, from + 3000)
      .map((v, i) => ({ n: "pressureBarG", t: startedS + (from + i) / 10, v }));
    expect((await post(running, pack)).status).toBe(201);
  }
  expect(tracesOf(running)).toEqual([{ channel: "pressureBarG", startS: 0, everyS: 0.1, values: wave }]);
});

const noTrace: [string, unknown, string][] = [
  ["a value that is null", [{ n: "levelMm", t: startedS, v: null }], "[0].v"],
  ["a record without a value", [{ n: "levelMm", t: startedS }], "[0].v"],
  ["a text for a value", [{ n: "levelMm", vs: "38" }], "[0].vs"],
  ["a name of no channel", [{ n: "battery", v: 3 }], "[0].n"],
  ["a unit that is not the channel's", [{ n: "levelMm", u: "Pa", v: 3 }], "[0].u"],
  ["a label that must be understood", [{ n: "levelMm", v: 3, secret_: 1 }], "[0].secret_"],
  ["a later version", [{ bver: 11, n: "levelMm", v: 3 }], "[0].bver"],
  ["a moment long before", [{ n: "levelMm", t: startedS - 1e7, v: 3 }], "[0].t"],
  ["no record at all", [], "(the whole)"],
  ["base fields alone", [{ bn: "x" }], "(the whole)"],
  [
    "two sensors of one channel",
    [
      { n: "left/levelMm", t: startedS, v: 3 },
      { n: "right/levelMm", t: startedS, v: 3 },
    ],
    "[1].n",
  ],
  [
    "times of no even spacing",
    [0, 1, 2.6, 3, 4.4, 5.1, 5.7, 8].map((t) => ({ n: "levelMm", t: startedS + t, v: 3 })),
    "[0].t",
  ],
];
test.each(noTrace)("%s is refused with its place", async (_what, pack, path) => {
  const running = await steamedApp();
  const answer = await post(running, pack);
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "invalid", path });
  expect(tracesOf(running)).toEqual([]);
});

test("a pack of another media type, or for a steaming that is not there, is refused", async () => {
  const running = await steamedApp();
  const pack = [{ n: "levelMm", v: 3 }];
  const asJson = await running.ask("POST", url, pack);
  expect(asJson.status).toBe(415);
  expect(asJson.body).toMatchObject({ code: "wrong-type" });
  const senml = { "content-type": "application/senml+json" };
  expect((await running.ask("POST", "/api/steamings/none/traces", pack, senml)).status).toBe(404);
});
