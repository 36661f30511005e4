import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

/** The quick tests of the three rooms: no server, no browser, no long calibration. */
const FOLDERS = (process.env.TESTS ?? "steam,boiler,published,analysis,quantity,statistics,logbook").split(
  ",",
);
const NAMESPACE = "__stryker__";
/** MUTANTS=0/5 tries every fifth mutant only, from the first; the others count neither way. */
const [FIRST, EVERY] = (process.env.MUTANTS ?? "0/1").split("/").map(Number);
/** What each test took in the first run, for all processes: the quickest try a mutant first. */
const TIMES = "quick-tests-took.json";

/** All quick tests in one file, once for a process: Stryker switches mutants on and off inside it. */
async function bundle() {
  const files = FOLDERS.flatMap((folder) =>
    readdirSync(join("tests", folder), { recursive: true })
      .filter((name) => name.endsWith(".test.ts"))
      .map((name) => join("tests", folder, name)),
  );
  const outfile = resolve(`quick-tests-${process.pid}.mjs`);
  await build({
    stdin: {
      contents: files.map((file) => `import "./${file}";`).join("\n"),
      resolveDir: process.cwd(),
    },
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    packages: "external",
    alias: { vitest: resolve("tests/mutation/stand-in.mjs") },
    outfile,
    logLevel: "error",
  });
  return pathToFileURL(outfile).href;
}

/** Runs what a suite or file signs up, and gives it back with ids that begin with its own. */
function signedUpBy(body, prefix) {
  globalThis.signedUp = [];
  body();
  return globalThis.signedUp.map((one, i) => ({ ...one, id: `${prefix}${i} ${one.name}` }));
}

function sharedWithMutants() {
  globalThis[NAMESPACE] ??= {};
  return globalThis[NAMESPACE];
}

class QuickRunner {
  #href = "";
  #loads = 0;
  #top = [];
  #stale = true;
  #tookMs;
  #stryker = sharedWithMutants();

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    this.#href = await bundle();
  }

  async dryRun() {
    await this.#load();
    const results = [];
    for (const one of this.#top) await this.#runOne(one, () => true, results, false);
    writeFileSync(TIMES, JSON.stringify(results.map(({ id, timeSpentMs }) => [id, timeSpentMs])));
    return { status: "complete", tests: results, mutantCoverage: this.#stryker.mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation }) {
    if (Number(activeMutant.id) % EVERY !== FIRST)
      return { status: "error", errorMessage: "not in the sample" };
    const isStatic = mutantActivation === "static";
    Object.assign(this.#stryker, {
      hitCount: 0,
      hitLimit,
      activeMutant: isStatic ? activeMutant.id : undefined,
    });
    const results = [];
    try {
      if (isStatic || this.#stale) await this.#load();
      this.#stale = isStatic;
      this.#stryker.activeMutant = activeMutant.id;
      const filter = testFilter === undefined ? undefined : new Set(testFilter);
      for (const { one, ids } of this.#quickestFirst(filter)) {
        // a suite within a suite is wanted for the sake of its tests
        const wanted = (id) => ids.has(id) || [...ids].some((other) => other.startsWith(`${id} > `));
        if (!(await this.#runOne(one, wanted, results, true))) break;
      }
    } catch (problem) {
      this.#stale = true;
      results.push({ id: "load", status: 1, failureMessage: String(problem) });
    }
    this.#stryker.activeMutant = undefined;
    if (hitLimit !== undefined && this.#stryker.hitCount > hitLimit)
      return { status: "timeout", reason: "hit limit" };
    const failed = results.find((one) => one.status === 1);
    return failed === undefined
      ? { status: "survived", nrOfTests: results.length }
      : {
          status: "killed",
          killedBy: [failed.id],
          failureMessage: failed.failureMessage,
          nrOfTests: results.length,
        };
  }

  /** Suites and tests to be run, each with those of its ids that are wanted, by the time they took. */
  #quickestFirst(filter) {
    this.#tookMs ??= new Map(JSON.parse(readFileSync(TIMES, "utf8")));
    const groups = this.#top.flatMap((one) => {
      const own = (id) => id === one.id || id.startsWith(`${one.id} > `);
      const all = [...this.#tookMs.keys()].filter(own);
      const ids = filter === undefined || filter.has(one.id) ? all : all.filter((id) => filter.has(id));
      const tookMs = ids.reduce((sum, id) => sum + (this.#tookMs.get(id) ?? 0), 0);
      return ids.length === 0 ? [] : [{ one, ids: new Set(ids), tookMs }];
    });
    return groups.sort((a, b) => a.tookMs - b.tookMs);
  }

  async #load() {
    globalThis.signedUp = [];
    await import(`${this.#href}?load=${this.#loads++}`);
    this.#top = globalThis.signedUp.map((one, i) => ({ ...one, id: `${i} ${one.name}` }));
  }

  /** A test, or a suite's body and those of its tests that are wanted; all of them where the body itself is reached. */
  async #runOne(one, wanted, results, bail) {
    let inside = [];
    const took = await this.#timed(one.id, results, () => {
      if (one.suite === undefined) return one.body();
      inside = signedUpBy(one.suite, `${one.id} > `);
    });
    if (!took && bail) return false;
    for (const test of inside) {
      if (!wanted(test.id)) continue;
      if (!(await this.#runOne(test, wanted, results, bail)) && bail) return false;
    }
    return true;
  }

  async #timed(id, results, body) {
    this.#stryker.currentTestId = id;
    const startedMs = performance.now();
    let failureMessage;
    try {
      await body();
    } catch (problem) {
      failureMessage = String(problem?.message ?? problem).slice(0, 500);
    }
    this.#stryker.currentTestId = undefined;
    const status = failureMessage === undefined ? 0 : 1;
    results.push({
      id,
      name: id,
      timeSpentMs: performance.now() - startedMs,
      status,
      ...(status === 1 ? { failureMessage } : {}),
    });
    return status === 0;
  }
}

export const strykerPlugins = [
  {
    kind: "TestRunner",
    name: "quick",
    factory: Object.assign(() => new QuickRunner(), { inject: [] }),
  },
];
