import { generateKeyPairSync } from "node:crypto";
import { writeFileSync } from "node:fs";
import { request } from "node:https";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { readConfig } from "../../server/config.ts";
import { engine } from "./fixtures.ts";
import { type Listening, listening } from "./listening.ts";
import { emptyFolder } from "./running-app.ts";
import { testCertificate, testKey } from "./test-certificate.ts";

const begun: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of begun.splice(0).reverse()) await end();
});

let folder = "";
beforeEach(() => {
  folder = emptyFolder();
});

function fileWith(name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

async function open(): Promise<Listening> {
  const server = await listening(emptyFolder(), {
    lan: true,
    hostsAllowed: ["shed.example"],
    tls: { cert: testCertificate, key: testKey },
  });
  begun.push(server.close);
  return server;
}

/** Asks over https and checks the certificate; nothing is waved through. */
function ask(
  { port }: Listening,
  method: string,
  path: string,
  about: { body?: unknown; headers?: Record<string, string> } = {},
): Promise<{ status: number; body: unknown }> {
  return new Promise((resolve, reject) => {
    const asked = request(
      {
        host: "127.0.0.1",
        port,
        method,
        path,
        ca: testCertificate,
        agent: false,
        headers: {
          ...(about.body === undefined ? {} : { "content-type": "application/json" }),
          ...about.headers,
        },
      },
      (response) => {
        let text = "";
        response.setEncoding("utf8").on("data", (part: string) => {
          text += part;
        });
        response.once("end", () => resolve({ status: response.statusCode ?? 0, body: JSON.parse(text) }));
      },
    );
    asked.once("error", reject);
    asked.end(about.body === undefined ? undefined : JSON.stringify(about.body));
  });
}

test("with the owner's certificate it answers over https, and its own pages may write", async () => {
  const server = await open();
  expect((await ask(server, "GET", "/api/locomotives")).body).toEqual([]);
  const headers = { origin: `https://127.0.0.1:${server.port}`, host: `127.0.0.1:${server.port}` };
  expect((await ask(server, "POST", "/api/locomotives", { body: engine, headers })).status).toBe(201);
  await expect(fetch(`http://127.0.0.1:${server.port}/api/locomotives`)).rejects.toThrow("fetch failed");
});

test("over https pairing warns of nothing, and a new code leads to the name of the certificate", async () => {
  const server = await open();
  const made = await ask(server, "POST", "/api/pairing/codes", { body: { may: "record" } });
  const { code, address } = made.body as { code: string; address: string };
  expect(address).toBe(`https://shed.example:${server.port}`);
  const paired = await ask(server, "POST", "/api/pairing", {
    body: { code, name: "A phone" },
    headers: { "x-forwarded-for": "192.0.2.40" },
  });
  expect(paired).toEqual({ status: 201, body: { token: expect.any(String), may: "record" } });
});

test("a certificate and its key are read", () => {
  const args = ["--tls-cert", fileWith("cert", testCertificate), "--tls-key", fileWith("key", testKey)];
  expect(readConfig(args, {}, "linux").tls).toEqual({ cert: testCertificate, key: testKey });
});

const otherKey = () =>
  generateKeyPairSync("ec", {
    namedCurve: "P-256",
    publicKeyEncoding: { type: "spki", format: "pem" },
    privateKeyEncoding: { type: "pkcs8", format: "pem" },
  }).privateKey;
const lockedKey = () =>
  generateKeyPairSync("ec", {
    namedCurve: "P-256",
    publicKeyEncoding: { type: "spki", format: "pem" },
    privateKeyEncoding: { type: "pkcs8", format: "pem", cipher: "aes-128-cbc", passphrase: "test" },
  }).privateKey;

test.each<[string, () => string[], string]>([
  ["a certificate without a key", () => ["--tls-cert", fileWith("cert", testCertificate)], "--tls-key"],
  ["a key without a certificate", () => ["--tls-key", fileWith("key", testKey)], "--tls-cert"],
  [
    "a certificate that is not there",
    () => ["--tls-cert", join(folder, "none"), "--tls-key", fileWith("key", testKey)],
    "--tls-cert",
  ],
  [
    "a key that is not there",
    () => ["--tls-cert", fileWith("cert", testCertificate), "--tls-key", join(folder, "none")],
    "--tls-key",
  ],
  [
    "a certificate that is none",
    () => ["--tls-cert", fileWith("cert", "nonsense"), "--tls-key", fileWith("key", testKey)],
    "--tls-cert",
  ],
  [
    "a key that is none",
    () => ["--tls-cert", fileWith("cert", testCertificate), "--tls-key", fileWith("key", "nonsense")],
    "--tls-key",
  ],
  [
    "a key of another certificate",
    () => ["--tls-cert", fileWith("cert", testCertificate), "--tls-key", fileWith("key", otherKey())],
    "--tls-key",
  ],
  [
    "a key under a passphrase",
    () => ["--tls-cert", fileWith("cert", testCertificate), "--tls-key", fileWith("key", lockedKey())],
    "--tls-key",
  ],
])("%s is refused in one line that names the option", (_what, args, option) => {
  let message = "";
  try {
    readConfig(args(), {}, "linux");
  } catch (error) {
    message = error instanceof Error ? error.message : "";
  }
  expect(message.startsWith(`${option}: came `)).toBe(true);
  expect(message).toContain("wanted");
  expect(message).not.toContain("\n");
});
