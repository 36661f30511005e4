import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { openBrowser } from "../support/browser.ts";
import { bytesSent, scriptsOfFirstVisit } from "../support/footplate-load.ts";
import { startServer } from "../support/server.ts";
import { eightPhones } from "./eight-phones.ts";
import { longSteaming } from "./long-steaming.ts";
import { tankBenchMoves } from "./tank-bench-moves.ts";
import { tapToKept } from "./tap-to-kept.ts";

/**
 * Speed, as ratios within one run so that a noisy machine does not matter: `npm run bench`. Exit code 1 where a limit
 * is passed.
 */
let failed = 0;
function limit(name: string, value: number, most: number, unit: string): void {
  const kept = value <= most;
  if (!kept) failed += 1;
  console.log(`${kept ? "kept  " : "FAILED"} ${name}: ${value.toFixed(2)} ${unit}, at most ${most} ${unit}`);
}

/**
 * Times of two runs by turns, ms, after the code is warm: of each the fastest tenth, for on a busy machine the rest
 * tells of other programs, and the more so the longer the run.
 */
function quickMs(a: () => unknown, b: () => unknown, runs = 300): [number, number] {
  const once = (run: () => unknown) => {
    const start = performance.now();
    run();
    return performance.now() - start;
  };
  for (let i = 0; i < 40; i++) [a(), b()];
  const times = Array.from({ length: runs }, () => [once(a), once(b)] as const);
  const quick = (which: 0 | 1) =>
    times.map((pair) => pair[which]).sort((x, y) => x - y)[Math.floor(runs / 10)] ?? 0;
  return [quick(0), quick(1)];
}

const text = JSON.stringify(longSteaming());
const reading = readLogbook(text);
if (!reading.ok) throw new Error("the bench's own logbook does not pass");
const [locomotive] = reading.value.locomotives;
const [steaming] = reading.value.steamings;
if (locomotive === undefined || steaming === undefined) throw new Error("the bench's own logbook is empty");
const entries = steaming.entries.length;
const [parseMs, reportMs] = quickMs(
  () => readLogbook(text),
  () => reportOf(analyse(locomotive, steaming)),
);
console.log(
  `${entries} entries: parse and validate ${parseMs.toFixed(2)} ms, report ${reportMs.toFixed(2)} ms`,
);
limit("report of 3 h against parsing and validating it", reportMs / parseMs, 5, "times");

const assets = resolve(import.meta.dirname, "../../web/dist/assets");
if (existsSync(assets)) {
  const index = readFileSync(resolve(assets, "../index.html"), "utf8");
  const first = readdirSync(assets).filter((name) => name.endsWith(".js") && index.includes(name));
  const bytes = first.reduce((sum, name) => sum + gzipSync(readFileSync(join(assets, name))).length, 0);
  limit("script named by the first page, gzipped", bytes / 1000, 100, "kB");
}

const phones = await eightPhones();
const ms = (value: number) => `${value.toFixed(2)} ms`;
console.log(`eight phones at ${phones.address}: ${phones.sent} entries in a minute`);
console.log(`one at a time: p50 ${ms(phones.idleP50Ms)}, p99 ${ms(phones.idleP99Ms)}`);
console.log(`eight phones: p50 ${ms(phones.p50Ms)}, p99 ${ms(phones.p99Ms)}`);
limit("errors of eight phones in a minute", phones.errors, 0, "errors");
limit("events that their followers missed or got twice", phones.missed, 0, "events");
limit("p99 of eight phones against the idle p50", phones.p99Ms / phones.idleP50Ms, 10, "times");

const visit = await Promise.all([openBrowser(), startServer()]);
const scripts = await scriptsOfFirstVisit(visit[0], visit[1].address);
await Promise.all([visit[0].close(), visit[1].stop()]);
limit("script of the Footplate, whole in one load, gzipped", bytesSent(scripts) / 1000, 70, "kB");
const kept = await tapToKept();
console.log(
  `tap to kept at a sixth of the speed, ${kept.taps} laps: median ${ms(kept.medianMs)}, fastest tenth ${ms(kept.quickMs)}; a bare write ${ms(kept.bareMedianMs)}`,
);
limit("tap to kept at a sixth of the speed, median", kept.medianMs, 50, "ms");

const moves = await tankBenchMoves();
console.log(`Tank bench: ${moves.moves} moves of its sliders, slowest ${moves.slowestMs.toFixed(0)} ms`);
limit("answer of the Tank bench at a quarter of the speed, median", moves.medianMs, 50, "ms");
process.exitCode = failed === 0 ? 0 : 1;
