/**
 * Sets the program up before any of its scripts run: installs what package-lock.json names when node_modules
 * is missing or of another lock, and with `--web` builds the pages when their sources have changed.
 * Plain JavaScript without dependencies, as it must run before there are any. All it says goes to standard
 * error, so that a script's own output stays clean. When there is nothing to do it takes some milliseconds.
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import {
  existsSync,
  lstatSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const inRoot = (...parts) => join(root, ...parts);
const lockFile = inRoot("package-lock.json");
const installStamp = inRoot("node_modules", ".lapwater-install");
const databaseBinary = inRoot("node_modules", "better-sqlite3", "build", "Release", "better_sqlite3.node");
/**
 * `npm start` says `exec node ...`, so that no shell stands between npm and the server and a signal to npm ends
 * the server in good order. The shell of Windows has no exec: this file stands in for it.
 */
const execShim = inRoot("node_modules", ".bin", "exec.cmd");
const webStamp = inRoot("web", "dist", ".lapwater-build");
const sayEveryMs = 15_000;

class SetupError extends Error {}

const say = (text) => process.stderr.write(`Lapwater: ${text}\n`);

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    throw new SetupError(
      `needs Node 20.19 or newer, this is ${process.versions.node} (see https://nodejs.org)`,
    );
  }
}

const contentOf = (file) => (existsSync(file) ? readFileSync(file, "utf8") : "");
const hashOf = (...texts) => {
  const hash = createHash("sha256");
  for (const text of texts) hash.update(text).update("\0");
  return hash.digest("hex");
};

/**
 * Where this Node brought its own headers along, the database compiles against those; else they would have to be
 * fetched. What the environment says wins.
 */
function headersOfNode() {
  const prefix = dirname(dirname(realpathSync(process.execPath)));
  const version = contentOf(join(prefix, "include", "node", "node_version.h"));
  const [major, minor, patch] = process.versions.node.split(".");
  const fits = [
    `NODE_MAJOR_VERSION ${major}`,
    `NODE_MINOR_VERSION ${minor}`,
    `NODE_PATCH_VERSION ${patch}`,
  ].every((line) => new RegExp(`#define ${line}\\b`).test(version));
  return fits ? { npm_config_nodedir: prefix } : {};
}

/** Runs a command: its output goes to our standard error, less stack traces, and now and then a word that it is still at work. */
function run(command, args, what) {
  return new Promise((resolve, reject) => {
    const began = Date.now();
    const onWindows = process.platform === "win32";
    const child = spawn(command, args, {
      cwd: root,
      stdio: ["ignore", "pipe", "pipe"],
      shell: onWindows && command === "npm",
      env: { ...headersOfNode(), ...process.env },
    });
    for (const output of [child.stdout, child.stderr]) {
      createInterface({ input: output }).on("line", (line) => {
        if (!/^\s+at .+[:)]/.test(line)) process.stderr.write(`${line}\n`);
      });
    }
    const saying = setInterval(
      () => say(`still ${what} (${Math.round((Date.now() - began) / 1000)} s)`),
      sayEveryMs,
    );
    const ended = (failure) => {
      clearInterval(saying);
      if (failure === undefined) resolve(Math.round((Date.now() - began) / 1000));
      else reject(new SetupError(`${what} failed: ${failure}`));
    };
    child.on("error", (error) => ended(error.message));
    child.on("close", (code, signal) =>
      ended(code === 0 ? undefined : `${command} ended with ${signal ?? code}`),
    );
  });
}

/** npm as it was started, else the one on the path. */
function npm(args, what) {
  const ownNpm = process.env.npm_execpath ?? "";
  return /npm-cli\.js$/.test(ownNpm)
    ? run(process.execPath, [ownNpm, ...args], what)
    : run("npm", args, what);
}

/** What is installed is of this lock, of this machine and of this Node's binary interface. */
const wantedInstall = () =>
  hashOf(contentOf(lockFile), process.platform, process.arch, process.versions.modules);

/** Whether npm's own record in node_modules holds every package of the lock, for folders that bear no stamp yet. */
function installedByHand() {
  const installed = contentOf(inRoot("node_modules", ".package-lock.json"));
  const lock = contentOf(lockFile);
  if (installed === "" || lock === "" || !existsSync(databaseBinary)) return false;
  const present = JSON.parse(installed).packages ?? {};
  return Object.entries(JSON.parse(lock).packages ?? {}).every(
    ([name, wanted]) =>
      name === "" ||
      (present[name] === undefined ? wanted.optional === true : present[name].version === wanted.version),
  );
}

/** npm empties the folder that it installs into: through a link that would be another program's. */
function refuseLink() {
  const modules = inRoot("node_modules");
  if (!lstatSync(modules, { throwIfNoEntry: false })?.isSymbolicLink()) return;
  throw new SetupError(
    `node_modules is a link to ${readlinkSync(modules)}, which does not hold what package-lock.json names, and installing would empty that folder: remove the link (not the folder) and start again`,
  );
}

async function install() {
  const wanted = wantedInstall();
  if (contentOf(installStamp) === wanted && existsSync(databaseBinary)) return;
  if (contentOf(installStamp) !== "" || !installedByHand()) {
    refuseLink();
    say("installing what it is built of; the database compiles for about a minute on a first install");
    const quiet = ["--include=dev", "--no-audit", "--no-fund"];
    const tookS = await npm([existsSync(lockFile) ? "ci" : "install", ...quiet], "installing");
    if (!existsSync(databaseBinary)) {
      await npm(["rebuild", "better-sqlite3", "--ignore-scripts=false"], "compiling the database");
    }
    if (!existsSync(databaseBinary)) {
      throw new SetupError("the database was not built: it needs a C++ compiler, make and Python");
    }
    say(`installed in ${tookS} s`);
  }
  if (process.platform === "win32") writeFileSync(execShim, "@%*\r\n");
  writeFileSync(installStamp, wantedInstall());
}

function filesUnder(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((item) => {
      const path = join(folder, item.name);
      if (path === inRoot("web", "dist")) return [];
      return item.isDirectory() ? filesUnder(path) : [path];
    });
}

function wantedWeb() {
  const hash = createHash("sha256").update(contentOf(lockFile));
  for (const file of [...filesUnder(inRoot("web")), ...filesUnder(inRoot("src"))]) {
    hash
      .update(relative(root, file).split(sep).join("/"))
      .update("\0")
      .update(readFileSync(file))
      .update("\0");
  }
  return hash.digest("hex");
}

async function buildWeb() {
  const wanted = wantedWeb();
  if (contentOf(webStamp) === wanted) return;
  say("building its pages");
  const vite = inRoot("node_modules", "vite", "bin", "vite.js");
  const config = join("web", "vite.config.ts");
  const args = [vite, "build", "--config", config, "--logLevel", "warn"];
  const tookS = await run(process.execPath, args, "building the pages");
  if (!existsSync(inRoot("web", "dist", "index.html"))) {
    throw new SetupError("building the pages left no web/dist/index.html");
  }
  writeFileSync(webStamp, wanted);
  say(`pages built in ${tookS} s`);
}

/**
 * Whatever is missing, made; or one line on standard error and false.
 * @param {{ web: boolean }} options web: the pages too
 */
export async function setUp({ web }) {
  try {
    checkNode();
    await install();
    if (web) await buildWeb();
    return true;
  } catch (error) {
    say(error instanceof Error ? error.message.split("\n")[0] : String(error));
    return false;
  }
}

const startedAs = process.argv[1] ?? "";
const startedDirectly = existsSync(startedAs) && realpathSync(startedAs) === fileURLToPath(import.meta.url);
if (startedDirectly && !(await setUp({ web: process.argv.includes("--web") }))) process.exitCode = 1;
