import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Entry } from "../../src/logbook/entry.ts";
import { engine } from "../server/fixtures.ts";
import { type RunningApp, runningApp } from "../server/running-app.ts";
import { type BenchPhone, benchPhone } from "../support/bench-phone.ts";
import { openBrowser } from "../support/browser.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
});

type Kept = Entry & { id: string };

/** The server as it is now: a test may put another in its place, as after a backup was brought back. */
interface Bench {
  phone: BenchPhone;
  server: { now: RunningApp };
  id: string;
}

async function bench(wrongMs = 0): Promise<Bench> {
  const server = { now: await runningApp() };
  await server.now.ask("POST", "/api/locomotives", engine);
  const phone = await benchPhone(
    browser,
    async (method, path, text) => server.now.ask(method as "GET", path, text ?? undefined),
    wrongMs,
  );
  const id = await phone.does("begin", engine);
  return { phone, server, id };
}

const pressure = (barG: number) => ({ kind: "pressure", barG });
const entriesAt = ({ server, id }: Bench): Kept[] => server.now.store.entries.ofSteaming(id);
const formersAt = ({ server, id }: Bench) => server.now.store.entries.history(id).map(({ former }) => former);
const standing = async ({ phone, id }: Bench) =>
  (await phone.does("recordsOf", id)).filter((record) => record.deleted !== true);

/** Sends until nothing is left, as the background does; more rounds than there can be failures. */
async function sendUntilSent({ phone }: Bench): Promise<void> {
  for (let i = 0; i < 30; i++) if ((await phone.does("send")) === "sent") return;
  throw new Error("it was never sent");
}

describe("an entry corrected before it was sent", () => {
  test("is sent as it was first, then corrected: the server keeps what the correction replaced", async () => {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(4.2));
    const [before] = await on.phone.does("recordsOf", on.id);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(2.4) } as Kept);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(2.5) } as Kept);
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([{ id, barG: 2.5 }]);
    expect(formersAt(on)).toMatchObject([{ barG: 4.2 }, { barG: 2.4 }]);
    const [record] = await standing(on);
    expect(record?.entry).toEqual(entriesAt(on)[0]);
    expect(record?.pending).toBeUndefined();
  });

  test("keeps its time to be set right where the owner changed only its value", async () => {
    const on = await bench(3_600_000);
    const { id } = await on.phone.does("tap", on.id, pressure(4.2));
    const [before] = await on.phone.does("recordsOf", on.id);
    // the clock is set right while nothing can be measured: what was tapped is an hour late by now
    await on.phone.does("setClock", -3_600_000, false);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(2.4) } as Kept);
    await sendUntilSent(on);
    const start = Date.parse(on.server.now.store.steamings.get(on.id)?.head.startedAt ?? "");
    expect(Math.abs(start - Date.now())).toBeLessThan(60_000);
    const [entry] = entriesAt(on);
    expect(Math.abs(start + 1000 * (entry?.atS ?? Number.NaN) - Date.now())).toBeLessThan(60_000);
  });

  test("keeps the time that the owner gave it", async () => {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(4.2));
    const [before] = await on.phone.does("recordsOf", on.id);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), atS: 1234.5 });
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([{ barG: 4.2, atS: 1234.5 }]);
    expect(formersAt(on).map((former) => former?.atS)).toEqual([before?.entry.atS]);
  });

  const fates = ["lost", "answer lost"] as const;
  test.each(fates.flatMap((fate) => [1, 2, 3, 4].map((number) => [fate, number] as const)))(
    "comes to the right end where a request is %s at its %d. asking and the page is gone with it",
    async (fate, number) => {
      const on = await bench();
      const { id } = await on.phone.does("tap", on.id, pressure(4.2));
      const [before] = await on.phone.does("recordsOf", on.id);
      for (const barG of [2.4, 2.5]) {
        await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(barG) } as Kept);
      }
      let failed = 0;
      on.phone.network((_request, asking) => {
        if (asking !== number || failed++ > 0) return "answered";
        return fate;
      });
      expect(await on.phone.does("send")).not.toBe("sent");
      expect(failed).toBe(1);
      await on.phone.reload();
      await sendUntilSent(on);
      expect(entriesAt(on)).toMatchObject([{ id, barG: 2.5 }]);
      expect(formersAt(on)).toMatchObject([{ barG: 4.2 }, { barG: 2.4 }]);
      const [record] = await standing(on);
      expect([record?.refused, record?.pending]).toEqual([undefined, undefined]);
    },
  );
});
