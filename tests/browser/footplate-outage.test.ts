import { createHash, X509Certificate } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { testCertificate, testKey } from "../server/test-certificate.ts";
import { openBrowser, openProfile } from "../support/browser.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, beginSteaming, entriesAt, kept, pairPhone, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const begun: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of begun.splice(0).reverse()) await end();
});

const MINUTE_MS = 60_000;

test("at the network's plain address an hour without the server loses nothing: what was tapped every five minutes arrives once, at its time", async () => {
  const [browser, server] = await Promise.all([openBrowser(), restartableServer("--lan")]);
  begun.push(server.stop, () => browser.close());
  const context = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(context, server);
  const page = await context.newPage();
  await page.clock.install({ time: Date.now() });
  const id = await beginSteaming(page, server.lanAddress);
  await allSent(page);
  expect(await page.evaluate(() => isSecureContext)).toBe(false);
  await server.kill();
  const taps = 13;
  for (let i = 1; i <= taps; i++) {
    await tile(page, "Lap").click();
    await kept(page, i);
    if (i < taps) await page.clock.fastForward(5 * MINUTE_MS);
  }
  await page.locator(".contact", { hasText: `${taps} kept here, not sent` }).waitFor();
  await page.locator(".contact", { hasText: "server out of reach" }).waitFor();
  // for the server too an hour has passed
  await server.start(60 * MINUTE_MS);
  await page.clock.fastForward(5000);
  await allSent(page);
  const entries = await entriesAt(server, id);
  expect(entries.length).toBe(taps);
  expect(new Set(entries.map((entry) => entry.id)).size).toBe(taps);
  const gaps = entries.slice(1).map((entry, i) => entry.atS - (entries[i]?.atS ?? Number.NaN));
  for (const gap of gaps) {
    expect(gap).toBeGreaterThanOrEqual(299.9);
    // what the test itself took between two taps
    expect(gap).toBeLessThan(330);
  }
});

test("with the owner's own certificate the Footplate starts cold without the server, begins a steaming, and sends it when the server is back", async () => {
  const folder = mkdtempSync(join(tmpdir(), "lapwater-profile-test-"));
  begun.push(() => rmSync(folder, { recursive: true, force: true }));
  const [cert, key] = [join(folder, "cert.pem"), join(folder, "key.pem")];
  writeFileSync(cert, testCertificate);
  writeFileSync(key, testKey);
  const server = await restartableServer("--lan", "--tls-cert", cert, "--tls-key", key);
  begun.push(server.stop);
  const publicKey = new X509Certificate(testCertificate).publicKey.export({ type: "spki", format: "der" });
  const trusted = createHash("sha256").update(publicKey).digest("base64");
  const open = async () => {
    const context = await openProfile(join(folder, "profile"), trusted);
    begun.push(() => context.close());
    return { context, page: await context.newPage() };
  };
  const first = await open();
  await pairPhone(first.context, server);
  await first.page.goto(`${server.lanAddress}/#/footplate`);
  await first.page.getByRole("button", { name: /^Begin: / }).waitFor();
  expect(new URL(first.page.url()).protocol).toBe("https:");
  await first.page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await first.context.close();
  await server.kill();

  const { page } = await open();
  const id = await beginSteaming(page, server.lanAddress);
  await tile(page, "Lap").click();
  await page.locator(".contact", { hasText: "2 kept here, not sent" }).waitFor();
  await server.start();
  await allSent(page);
  expect(await entriesAt(server, id)).toMatchObject([{ kind: "lap", count: 1 }]);
});
