import type { BrowserContext, Page } from "playwright-core";
import type { Entry } from "../../src/logbook/entry.ts";
import type { RestartableServer } from "./restartable-server.ts";

/** Pairs the browser with the server, as a phone in its network must be; in this context's own storage. */
export async function pairPhone(context: BrowserContext, server: RestartableServer): Promise<void> {
  const { code } = (await server.ask("/api/pairing/codes", "POST", { may: "record" })) as { code: string };
  const { token } = (await server.ask("/api/pairing", "POST", { code, name: "test phone" })) as {
    token: string;
  };
  await context.addInitScript((given) => {
    localStorage.setItem("lapwater.token", JSON.stringify([given]));
  }, token);
}

/** Longer than the second touch of a bounce comes after the first. */
export const BOUNCE_MS = 420;

/** Taps Begin on the Footplate's first page, for the only engine, whatever else of hers goes on; returns the new steaming's id. */
export async function tapBegin(page: Page): Promise<string> {
  await page.getByRole("button", { name: /^Begin: / }).click();
  const another = page.getByRole("button", { name: "Begin another" });
  await page.locator(".key.lap").or(another).waitFor();
  if (await another.isVisible()) await another.click();
  await page.locator(".key.lap").waitFor();
  return page.url().split("/").at(-1) ?? "";
}

/** Begins a steaming of the only engine and returns its id. */
export async function beginSteaming(page: Page, address: string): Promise<string> {
  await page.goto(`${address}/#/footplate`);
  return tapBegin(page);
}

export const tile = (page: Page, name: string) =>
  page.locator(".tiles .key").filter({ hasText: new RegExp(`^${name}`) });

/** Waits until a further touch at the same place is no bounce of the last one any more, by the page's own clock. */
export async function bounceOver(page: Page): Promise<void> {
  const fromMs = await page.evaluate(() => performance.now());
  await page.waitForFunction((untilMs) => performance.now() >= untilMs, fromMs + BOUNCE_MS);
}

/** Waits until the phone says that the so-and-so-many-th thing tapped since it was opened is kept. */
export const kept = (page: Page, number: number) =>
  page.locator(`.said.done[data-number="${number}"]`).waitFor();

/** Waits until the phone has nothing more to send, and the server has answered since. */
export const allSent = (page: Page) => page.locator(".contact", { hasText: "all sent" }).waitFor();

export async function entriesAt(server: RestartableServer, steamingId: string): Promise<Entry[]> {
  return ((await server.ask(`/api/steamings/${steamingId}`)) as { entries: Entry[] }).entries;
}

interface PhoneRecord {
  id: string;
  seq: number;
  entry: Entry & { id: string };
  deleted?: boolean;
  pending?: string;
}

/** What the phone's own store holds of a steaming, in the order in which it was written down. */
export const recordsOnPhone = (page: Page, steamingId: string): Promise<PhoneRecord[]> =>
  page.evaluate(
    (id) =>
      new Promise<PhoneRecord[]>((resolve, reject) => {
        const opening = indexedDB.open("lapwater");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const asked = opening.result
            .transaction("entries")
            .objectStore("entries")
            .index("steamingId")
            .getAll(id);
          asked.onerror = () => reject(asked.error);
          asked.onsuccess = () => {
            opening.result.close();
            resolve((asked.result as PhoneRecord[]).sort((a, b) => a.seq - b.seq));
          };
        };
      }),
    steamingId,
  );
