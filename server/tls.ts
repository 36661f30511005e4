import { readFileSync } from "node:fs";
import { createSecureContext } from "node:tls";

/** The owner's own certificate (with its chain) and its key, as PEM. */
export interface Tls {
  cert: string;
  key: string;
}

/**
 * Reads a certificate and its key, and tries them together. Null where neither is named.
 * @throws Error one line that names the option
 */
export function readTls(certFile: string | undefined, keyFile: string | undefined): Tls | null {
  if (certFile === undefined && keyFile === undefined) return null;
  if (certFile === undefined || keyFile === undefined) {
    const missing = certFile === undefined ? "--tls-cert" : "--tls-key";
    throw new Error(`${missing}: came nothing; wanted a file, as --tls-cert and --tls-key go together`);
  }
  const tls = { cert: textOf("--tls-cert", certFile), key: textOf("--tls-key", keyFile) };
  tried("--tls-cert", certFile, "a certificate in PEM", () => createSecureContext({ cert: tls.cert }));
  tried("--tls-key", keyFile, "the key of that certificate, in PEM, without a passphrase", () =>
    createSecureContext(tls),
  );
  return tls;
}

function textOf(option: string, file: string): string {
  return tried(option, file, "a file that can be read", () => readFileSync(file, "utf8"));
}

function tried<Result>(option: string, file: string, wanted: string, attempt: () => Result): Result {
  try {
    return attempt();
  } catch (error) {
    const detail = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
    throw new Error(`${option}: came ${file} (${detail}); wanted ${wanted}`);
  }
}
