import { spawnSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { emptyFolder } from "./running-app.ts";

const ownSetup = fileURLToPath(new URL("../../server/setup.mjs", import.meta.url));

/**
 * A clone of a program with a lock, a page and a source. npm and vite are stand-ins that write down how they
 * were called and leave behind what the real ones would; a real installation is what starts every test run.
 */
function clone() {
  const root = emptyFolder();
  const write = (path: string, text: string) => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  };
  mkdirSync(join(root, "server"));
  copyFileSync(ownSetup, join(root, "server", "setup.mjs"));
  write("package.json", '{"type":"module"}');
  write("package-lock.json", '{"packages":{"":{},"node_modules/a":{"version":"1.0.0"}}}');
  write("web/index.html", "<title>page</title>");
  write("src/steam.ts", "export const steam = 1;");
  const vite = `
    import { appendFileSync, mkdirSync, writeFileSync } from "node:fs";
    appendFileSync("vite-calls", process.argv.slice(2).join(" ") + "\\n");
    mkdirSync("web/dist", { recursive: true });
    writeFileSync("web/dist/index.html", "built");
    console.log("vite said");`;
  write(
    "npm-cli.js",
    `import { appendFileSync, mkdirSync, writeFileSync } from "node:fs";
     appendFileSync("npm-calls", process.argv.slice(2).join(" ") + "\\n");
     mkdirSync("node_modules/better-sqlite3/build/Release", { recursive: true });
     writeFileSync("node_modules/better-sqlite3/build/Release/better_sqlite3.node", "");
     mkdirSync("node_modules/vite/bin", { recursive: true });
     writeFileSync("node_modules/vite/package.json", '{"type":"module"}');
     writeFileSync("node_modules/vite/bin/vite.js", ${JSON.stringify(vite)});
     console.log("npm said");`,
  );
  const calls = (name: string) =>
    existsSync(join(root, name)) ? readFileSync(join(root, name), "utf8").trim().split("\n") : [];
  return {
    root,
    write,
    npmCalls: () => calls("npm-calls"),
    viteCalls: () => calls("vite-calls"),
    setUp: (flag?: "--web", nodeOptions: readonly string[] = []) =>
      spawnSync(process.execPath, [...nodeOptions, "server/setup.mjs", ...(flag ? [flag] : [])], {
        cwd: root,
        encoding: "utf8",
        env: { ...process.env, npm_execpath: join(root, "npm-cli.js") },
      }),
  };
}

const install = "ci --include=dev --no-audit --no-fund";

test("a fresh clone is installed by its lock, with every word on standard error", () => {
  const { setUp, npmCalls } = clone();
  const { status, stdout, stderr } = setUp();
  expect(status).toBe(0);
  expect(stdout).toBe("");
  expect(stderr).toMatch(/the database compiles for about a minute/);
  expect(stderr).toMatch(/npm said/);
  expect(npmCalls()).toEqual([install]);
});

test("what is installed is not installed again, and not a word is said", () => {
  const { setUp, npmCalls } = clone();
  setUp();
  const { status, stdout, stderr } = setUp();
  expect([status, stdout, stderr]).toEqual([0, "", ""]);
  expect(npmCalls()).toHaveLength(1);
});

test("another lock, or a missing part, is installed anew", () => {
  const { root, setUp, write, npmCalls } = clone();
  setUp();
  write("package-lock.json", '{"packages":{"":{},"node_modules/a":{"version":"1.0.1"}}}');
  setUp();
  expect(npmCalls()).toEqual([install, install]);
  rmSync(join(root, "node_modules", "better-sqlite3"), { recursive: true });
  setUp();
  expect(npmCalls()).toEqual([install, install, install]);
});

test("without a lock it installs what package.json names", () => {
  const { root, setUp, npmCalls } = clone();
  rmSync(join(root, "package-lock.json"));
  expect(setUp().status).toBe(0);
  expect(npmCalls()).toEqual([install.replace("ci", "install")]);
});

test("what the owner installed by hand of the same lock is taken as it is", () => {
  const { setUp, write, npmCalls } = clone();
  write("node_modules/better-sqlite3/build/Release/better_sqlite3.node", "");
  write("node_modules/.package-lock.json", '{"packages":{"node_modules/a":{"version":"1.0.0"}}}');
  expect(setUp().status).toBe(0);
  expect(npmCalls()).toEqual([]);
  const older = clone();
  older.write("node_modules/better-sqlite3/build/Release/better_sqlite3.node", "");
  older.write("node_modules/.package-lock.json", '{"packages":{"node_modules/a":{"version":"0.9.0"}}}');
  older.setUp();
  expect(older.npmCalls()).toEqual([install]);
});

test("nothing is installed through a link, which would empty the folder that it leads to", () => {
  const { root, setUp, write, npmCalls } = clone();
  setUp();
  const shared = join(emptyFolder(), "shared");
  renameSync(join(root, "node_modules"), shared);
  symlinkSync(shared, join(root, "node_modules"), "junction");
  // what the lock names is there, and is used
  expect(setUp().status).toBe(0);
  write("package-lock.json", '{"packages":{"":{},"node_modules/a":{"version":"1.0.1"}}}');
  const { status, stdout, stderr } = setUp();
  expect([status, stdout]).toEqual([1, ""]);
  expect(stderr).toContain(`node_modules is a link to ${shared}`);
  expect(stderr).toMatch(/remove the link \(not the folder\) and start again\n$/);
  rmSync(join(shared, "better-sqlite3"), { recursive: true });
  rmSync(join(shared, ".lapwater-install"));
  expect(setUp().status).toBe(1);
  expect(npmCalls()).toEqual([install]);
});

test("the pages are built when asked for, and again only when a page, a source or the lock has changed", () => {
  const { setUp, write, viteCalls } = clone();
  setUp();
  expect(viteCalls()).toEqual([]);
  const { stdout, stderr } = setUp("--web");
  expect(stdout).toBe("");
  expect(stderr).toMatch(/vite said/);
  expect(viteCalls()).toEqual(["build --config web/vite.config.ts --logLevel warn"]);
  expect(setUp("--web").stderr).toBe("");
  write("web/pages/shed.tsx", "export {};");
  setUp("--web");
  write("src/steam.ts", "export const steam = 2;");
  setUp("--web");
  expect(viteCalls()).toHaveLength(3);
  write("package-lock.json", '{"packages":{"":{}}}');
  setUp("--web");
  expect(viteCalls()).toHaveLength(4);
});

test("a Node that is too old is told so, before anything else is tried", () => {
  const { setUp, npmCalls } = clone();
  const older = 'data:text/javascript,Object.defineProperty(process.versions,"node",{value:"20.18.1"})';
  const { status, stdout, stderr } = setUp(undefined, ["--import", older]);
  expect([status, stdout]).toEqual([1, ""]);
  expect(stderr).toBe("Lapwater: needs Node 20.19 or newer, this is 20.18.1 (see https://nodejs.org)\n");
  expect(npmCalls()).toEqual([]);
});

test("a failed installation is said in plain lines, without a stack trace, and exits with 1", () => {
  const { setUp, write } = clone();
  write("npm-cli.js", 'throw new Error("no network");');
  const { status, stdout, stderr } = setUp();
  expect(status).toBe(1);
  expect(stdout).toBe("");
  expect(stderr).toMatch(/no network/);
  expect(stderr).toMatch(/^Lapwater: installing failed: .*ended with 1$/m);
  expect(stderr).not.toMatch(/^\s+at /m);
});

test("a failed build leaves no mark of a good one", () => {
  const { setUp, write, viteCalls } = clone();
  setUp();
  write("node_modules/vite/bin/vite.js", "process.exit(1);");
  expect(setUp("--web").status).toBe(1);
  expect(viteCalls()).toEqual([]);
  expect(setUp("--web").status).toBe(1);
});
