import type { AddressInfo } from "node:net";
import { buildApp, ownPlaces } from "./app.ts";
import { type Config, ConfigError, readConfig } from "./config.ts";
import { welcome } from "./demonstration.ts";
import { announcement } from "./pairing/announcement.ts";
import { pairingCodes } from "./pairing/codes.ts";
import { openStore } from "./store/store.ts";
import { StoreError } from "./store/store-error.ts";

const patienceMs = 10_000;

const say = (text: string) => process.stderr.write(`Lapwater: ${text}\n`);

/**
 * Opens the store, listens, and says where. With `lan` it listens on every address of the machine, answers only
 * paired devices there, and says how to pair one.
 */
async function start(config: Config): Promise<void> {
  const store = openStore(config.dataFolder);
  try {
    const notWelcomed = config.demonstration ? welcome(store) : null;
    if (notWelcomed !== null) say(notWelcomed);
    const codes = pairingCodes();
    const app = await buildApp(config, store, ownPlaces, codes);
    await app.listen({ port: config.port, host: config.lan ? "0.0.0.0" : "127.0.0.1" });

    let stopping = false;
    const stop = async () => {
      if (stopping) return;
      stopping = true;
      // who has not finished sending by then will send again
      setTimeout(() => app.server.closeAllConnections(), patienceMs).unref();
      await app.close();
      store.close();
    };
    process.on("SIGTERM", stop);
    process.on("SIGINT", stop);

    const { port } = app.server.address() as AddressInfo;
    const scheme = config.tls === null ? "http" : "https";
    const lines = [
      `Lapwater is at ${scheme}://127.0.0.1:${port}`,
      ...(config.lan ? announcement(config, port, codes) : []),
    ];
    process.stdout.write(`${lines.join("\n")}\n`);
  } catch (error) {
    store.close();
    throw error;
  }
}

function inOneLine(error: unknown, config: Config | null): string {
  if (error instanceof ConfigError || error instanceof StoreError) return error.message;
  const { code, message } = (error ?? {}) as { code?: unknown; message?: unknown };
  if (code === "EADDRINUSE") {
    return `port ${config?.port} is in use: is Lapwater running already? (--port chooses another)`;
  }
  if (code === "EACCES") return `port ${config?.port} may not be used by this user (--port chooses another)`;
  return `could not start: ${String(message ?? error).split("\n")[0]}`;
}

let config: Config | null = null;
try {
  config = readConfig(process.argv.slice(2), process.env, process.platform);
  await start(config);
} catch (error) {
  say(inOneLine(error, config));
  process.exitCode = 1;
}
