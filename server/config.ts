import { parseArgs } from "node:util";
import { type Environment, userDataFolder } from "./data-folder.ts";
import { readTls, type Tls } from "./tls.ts";

/** What the server is told when it starts: read once from the command line, then passed on. */
export interface Config {
  /** 0 lets the system choose */
  port: number;
  dataFolder: string;
  /** listen on every address of the machine, not only on the loopback one */
  lan: boolean;
  /** put the demonstration engine into an empty shed on the first run */
  demonstration: boolean;
  /** names, besides the machine's own, under which a browser may ask for the pages */
  hostsAllowed: readonly string[];
  /** the owner's own certificate: then https; null: plain http */
  tls: Tls | null;
}

/** Something told wrongly at the start, in one line. */
export class ConfigError extends Error {}

export const usage =
  "usage: npm start -- [--port 4532] [--data DIR] [--lan] [--no-demo] [--host-allowed NAME] " +
  "[--tls-cert FILE --tls-key FILE]";

/**
 * The configuration from command-line arguments and environment.
 * @throws ConfigError one line that names the option, what came and what is wanted
 */
export function readConfig(args: readonly string[], environment: Environment, platform: string): Config {
  const values = parsed(args);
  return {
    port: portOf(values.port ?? "4532"),
    dataFolder: values.data ?? userDataFolder(environment, platform),
    lan: values.lan ?? false,
    demonstration: !(values["no-demo"] ?? false),
    hostsAllowed: (values["host-allowed"] ?? []).map((name) => name.toLowerCase()),
    tls: tlsOf(values["tls-cert"], values["tls-key"]),
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      strict: true,
      allowPositionals: false,
      options: {
        port: { type: "string" },
        data: { type: "string" },
        lan: { type: "boolean" },
        "no-demo": { type: "boolean" },
        "host-allowed": { type: "string", multiple: true },
        "tls-cert": { type: "string" },
        "tls-key": { type: "string" },
      },
    }).values;
  } catch (error) {
    const detail = error instanceof Error ? error.message.split(/[.\n]/)[0] : String(error);
    throw new ConfigError(`${detail}; ${usage}`);
  }
}

function portOf(text: string): number {
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port > 65_535) {
    throw new ConfigError(`--port: came ${JSON.stringify(text)}; wanted a whole number from 0 to 65535`);
  }
  return port;
}

function tlsOf(certFile: string | undefined, keyFile: string | undefined): Tls | null {
  try {
    return readTls(certFile, keyFile);
  } catch (error) {
    throw new ConfigError(error instanceof Error ? error.message : String(error));
  }
}
