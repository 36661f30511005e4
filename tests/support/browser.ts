import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { type Browser, type BrowserContext, chromium, type LaunchOptions } from "playwright-core";

/** No sandbox (tests may run as root), no graphics card, and nothing that reaches out by itself. */
const flags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const systemPlaces = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/snap/bin/chromium",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/** A Chromium: the one that CHROMIUM_PATH names, else the system's, else the one inside the npm package. */
export async function openBrowser(): Promise<Browser> {
  return chromium.launch({ args: flags, ...(await findChromium()) });
}

/**
 * A browser with a folder of its own, which knows what it stored there when it is opened again.
 * @param trusted SHA-256 of the public key of a certificate that it takes for good, in base64
 */
export async function openProfile(folder: string, trusted: string): Promise<BrowserContext> {
  return chromium.launchPersistentContext(folder, {
    args: [...flags, `--ignore-certificate-errors-spki-list=${trusted}`],
    viewport: { width: 390, height: 844 },
    ...(await findChromium()),
  });
}

type Found = Pick<LaunchOptions, "executablePath" | "env">;

async function findChromium(): Promise<Found> {
  const named = process.env.CHROMIUM_PATH;
  if (named !== undefined && named !== "") {
    if (!existsSync(named)) throw new Error(`CHROMIUM_PATH: no file at ${named}`);
    return { executablePath: named };
  }
  const system = systemPlaces.find((place) => existsSync(place));
  return system === undefined ? unpackedChromium() : { executablePath: system };
}

/**
 * The packaged Chromium unpacks itself into the temporary folder, and its own shared libraries (nss and the
 * like, which a bare machine lacks) only where it believes itself on the service it was made for. So the
 * folder and that belief are set for as long as it unpacks; the folder takes its place by one rename, whole
 * or not at all, for test files that start at once.
 */
async function unpackedChromium(): Promise<Found> {
  if (process.platform !== "linux" || process.arch !== "x64") {
    throw new Error(
      `no Chromium found; the packaged one is for linux x64 and this is ${process.platform} ${process.arch}: set CHROMIUM_PATH`,
    );
  }
  const packageFile = createRequire(import.meta.url).resolve("@sparticuz/chromium");
  const modules = packageFile.slice(0, packageFile.lastIndexOf("node_modules") + "node_modules".length);
  const folder = join(modules, ".cache", "lapwater-chromium", versionOf(packageFile));
  const executablePath = join(folder, "chromium");
  if (!existsSync(executablePath)) await unpackInto(folder);
  return {
    executablePath,
    env: {
      ...process.env,
      LD_LIBRARY_PATH: [join(folder, "al2023", "lib"), process.env.LD_LIBRARY_PATH ?? ""]
        .filter((part) => part !== "")
        .join(":"),
    },
  };
}

function versionOf(packageFile: string): string {
  const require = createRequire(import.meta.url);
  for (let folder = dirname(packageFile); folder !== dirname(folder); folder = dirname(folder)) {
    const file = join(folder, "package.json");
    if (!existsSync(file)) continue;
    const { version } = require(file) as { version?: string };
    if (version !== undefined) return version;
  }
  throw new Error(`no package.json with a version above ${packageFile}`);
}

async function unpackInto(folder: string): Promise<void> {
  mkdirSync(dirname(folder), { recursive: true });
  const unpacking = mkdtempSync(`${folder}-unpacking-`);
  const before = { TMPDIR: process.env.TMPDIR, AWS_EXECUTION_ENV: process.env.AWS_EXECUTION_ENV };
  const libraries = process.env.LD_LIBRARY_PATH;
  const fonts = process.env.FONTCONFIG_PATH;
  try {
    process.env.TMPDIR = unpacking;
    process.env.AWS_EXECUTION_ENV = "AWS_Lambda_nodejs20.x";
    const packaged = await import("@sparticuz/chromium");
    await packaged.default.executablePath();
  } finally {
    restore({ ...before, LD_LIBRARY_PATH: libraries, FONTCONFIG_PATH: fonts });
  }
  try {
    renameSync(unpacking, folder);
  } catch (error) {
    rmSync(unpacking, { recursive: true, force: true });
    if (!existsSync(join(folder, "chromium"))) throw error;
  }
}

function restore(values: Record<string, string | undefined>): void {
  for (const [name, value] of Object.entries(values)) {
    if (value === undefined) delete process.env[name];
    else process.env[name] = value;
  }
}
