import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
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

afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});

const HOUR_MS = 3_600_000;

type Kept = Entry & { id: string };

/** The server as it is now: a test may put another in its place, as after a backup was brought back. */
interface Bench {
  phone: BenchPhone;
  server: { now: RunningApp; aheadMs: number };
  id: string;
}

async function bench(wrongMs = 0): Promise<Bench> {
  const server = { now: await runningApp(), aheadMs: 0 };
  await server.now.ask("POST", "/api/locomotives", engine);
  const phone = await benchPhone(
    browser,
    async (method, path, text) => {
      const answer = await server.now.ask(method as "GET", path, text ?? undefined);
      if (path !== "/api/clock") return answer;
      return { ...answer, text: JSON.stringify({ nowMs: Date.now() + server.aheadMs }) };
    },
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
    const on = await bench();
    await sendUntilSent(on);
    await on.phone.does("setClock", -HOUR_MS, true);
    await on.phone.does("setClock", HOUR_MS, true);
    const { id } = await on.phone.does("tap", on.id, pressure(4.2));
    const tappedMs = Date.now();
    const [before] = await on.phone.does("recordsOf", on.id);
    expect(Math.abs(before?.entry.atS ?? 0)).toBeGreaterThan(3000);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(2.4) } as Kept);
    await sendUntilSent(on);
    const start = Date.parse(on.server.now.store.steamings.get(on.id)?.head.startedAt ?? "");
    const [entry] = entriesAt(on);
    expect(Math.abs(start + 1000 * (entry?.atS ?? Number.NaN) - tappedMs)).toBeLessThan(5000);
    expect(formersAt(on)).toEqual([{ ...entry, barG: 4.2 }]);
  });

  test("keeps the time that the owner gave it", async () => {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(4.2));
    const [before] = await on.phone.does("recordsOf", on.id);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), atS: 1234.5 });
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([{ barG: 4.2, atS: 1234.5 }]);
    // its own time is the tap's, by the server's clock as measured since
    expect(Math.abs((formersAt(on)[0]?.atS ?? Number.NaN) - (before?.entry.atS ?? 0))).toBeLessThan(2);
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

/** How far the steaming's start and its entry stand from the moments at which they were tapped, ms. */
function errorsMs(on: Bench, startedMs: number, tappedMs: readonly number[]): number[] {
  const start = Date.parse(on.server.now.store.steamings.get(on.id)?.head.startedAt ?? "");
  const at = entriesAt(on).map((entry) => start + 1000 * entry.atS);
  return [start - startedMs, ...at.map((ms, i) => ms - (tappedMs[i] ?? Number.NaN))].map(Math.abs);
}

describe("a clock that is set while the phone lies in a pocket", () => {
  test.each([HOUR_MS, -HOUR_MS])(
    "by %d ms is noticed, and what is tapped before the server answers again gets its true time",
    async (byMs) => {
      const on = await bench();
      const startedMs = Date.now();
      await sendUntilSent(on);
      await on.phone.does("setClock", byMs, true);
      await on.phone.does("tap", on.id, pressure(2));
      const tappedMs = Date.now();
      await sendUntilSent(on);
      for (const error of errorsMs(on, startedMs, [tappedMs])) expect(error).toBeLessThan(5000);
    },
  );

  test("a clock that departs from the server's without a jump that anybody saw is measured anew, and only from then on", async () => {
    const on = await bench();
    const startedMs = Date.now();
    await sendUntilSent(on);
    await on.phone.does("tap", on.id, pressure(2));
    const first = Date.now();
    // 900 ms, less than a jump is told by
    await on.phone.does("setClock", 900, false);
    expect((await on.phone.does("recordsOf", on.id)).length).toBe(1);
    await sendUntilSent(on);
    await on.phone.does("tap", on.id, pressure(2.1));
    await sendUntilSent(on);
    const [one, two] = (await on.phone.does("recordsOf", on.id)).map((record) => record.raw);
    expect(one?.epoch).not.toBe(two?.epoch);
    expect((one?.offsetMs ?? 0) - (two?.offsetMs ?? 0)).toBeGreaterThan(700);
    expect((one?.offsetMs ?? 0) - (two?.offsetMs ?? 0)).toBeLessThan(1100);
    expect(errorsMs(on, startedMs, [first])[1]).toBeLessThan(5000);
  });

  test("a clock that is set again while it is measured leaves nothing to be sent with a wrong time", async () => {
    const on = await bench();
    const startedMs = Date.now();
    await sendUntilSent(on);
    await on.phone.does("tap", on.id, pressure(2));
    const tappedMs = Date.now();
    await on.phone.does("setClock", HOUR_MS, true);
    const sending = on.phone.does("send");
    await on.phone.does("setClock", HOUR_MS, true);
    await sending;
    await on.phone.does("tap", on.id, pressure(2.1));
    const later = Date.now();
    await sendUntilSent(on);
    for (const error of errorsMs(on, startedMs, [tappedMs, later])) expect(error).toBeLessThan(5000);
  });
});

describe("a server whose clock was set while the page was gone", () => {
  test.each([-20 * 60_000, HOUR_MS])(
    "by %d ms tears no steaming that goes on, however often the page is loaded anew, and the next one goes by the new clock",
    async (byMs) => {
      const on = await bench();
      const startedMs = Date.now();
      await on.phone.does("tap", on.id, pressure(1));
      const tappedMs = [Date.now()];
      await sendUntilSent(on);
      on.server.aheadMs = byMs;
      for (const barG of [2, 3]) {
        await on.phone.reload();
        // before the server has answered, and after it
        for (const more of [0.1, 0.2]) {
          await on.phone.does("tap", on.id, pressure(barG + more));
          tappedMs.push(Date.now());
          await sendUntilSent(on);
        }
        expect(Math.abs((await on.phone.does("serverMoved")) - byMs)).toBeLessThan(1000);
      }
      for (const error of errorsMs(on, startedMs, tappedMs)) expect(error).toBeLessThan(5000);
      await on.phone.does("finish", on.id);
      await on.phone.reload();
      const next = { ...on, id: await on.phone.does("begin", engine) };
      const nextMs = Date.now();
      await sendUntilSent(next);
      expect(errorsMs(next, nextMs + byMs, [])[0]).toBeLessThan(5000);
      expect(await on.phone.does("serverMoved")).toBe(0);
    },
  );

  test.each([
    ["back, which is seen as it never runs backwards", -HOUR_MS],
    ["ahead, which is what it seems to have been away for", HOUR_MS],
  ])(
    "is told from a phone whose own clock was set %s: what is tapped then has its true time",
    async (_how, byMs) => {
      const on = await bench();
      const startedMs = Date.now();
      await on.phone.does("tap", on.id, pressure(1));
      const tappedMs = [Date.now()];
      await sendUntilSent(on);
      await on.phone.does("setClockUnseen", byMs);
      await on.phone.reload();
      await on.phone.does("tap", on.id, pressure(2));
      tappedMs.push(Date.now());
      await sendUntilSent(on);
      expect(await on.phone.does("serverMoved")).toBe(0);
      for (const error of errorsMs(on, startedMs, tappedMs)) expect(error).toBeLessThan(5000);
    },
  );
});

describe("what is kept of the phone's clock", () => {
  test("does not grow with every page that is opened, and what was tapped by an old one's clock still gets its time", async () => {
    const on = await bench();
    const startedMs = Date.now();
    const other = await on.phone.tab();
    await other.does("opens");
    await other.does("tap", on.id, pressure(1));
    const tappedMs = Date.now();
    for (let i = 0; i < 25; i++) {
      await on.phone.reload();
      await on.phone.does("opens");
    }
    const kept = await on.phone.does("clocks");
    // the last twenty sittings, and the two whole ones by which the start and the entry are to be settled
    expect(new Set(kept.map(({ sitting }) => sitting)).size).toBe(22);
    const raw = (await on.phone.does("recordsOf", on.id))[0]?.raw;
    expect(kept.some(({ id }) => id === raw?.epoch)).toBe(true);
    await sendUntilSent(on);
    await on.phone.does("opens");
    expect(new Set((await on.phone.does("clocks")).map(({ sitting }) => sitting)).size).toBe(20);
    for (const error of errorsMs(on, startedMs, [tappedMs])) expect(error).toBeLessThan(5000);
  });
});

describe("a server brought back to an older state", () => {
  test("gets the phone's own entries again that it has lost, with their corrections, and what was deleted there stays deleted", async () => {
    const on = await bench();
    for (const barG of [1, 2, 3]) await on.phone.does("tap", on.id, pressure(barG));
    await sendUntilSent(on);
    const before = entriesAt(on);
    const [one, two, three] = before.map(({ id }) => id);
    await on.phone.does("correctEntry", two ?? "", { ...(before[1] as Kept), barG: 2.5 } as Kept);
    await sendUntilSent(on);
    const { head } = on.server.now.store.steamings.get(on.id) ?? {};
    // the older state has the first entry only; the third was deleted before it
    const older = await runningApp();
    await older.ask("POST", "/api/locomotives", engine);
    await older.ask("POST", "/api/steamings", { ...head, entries: [before[0]] });
    await older.ask("DELETE", `/api/steamings/${on.id}/entries/${three}`);
    on.server.now = older;
    await on.phone.does("takeUp", head as never, engine, entriesAt(on));
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([
      { id: one, barG: 1 },
      { id: two, barG: 2.5 },
    ]);
    expect(formersAt(on)).toMatchObject([null, { barG: 2 }]);
    const deleted = (await on.phone.does("recordsOf", on.id)).map((record) => record.deleted === true);
    expect(deleted).toEqual([false, false, true]);
  });

  /** A steaming whose entry was tapped as 4.2 bar and corrected to 2.4 and 2.5 here; all of it was sent. */
  async function correctedHere() {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(4.2));
    await sendUntilSent(on);
    const versions = [entriesAt(on)[0] as Kept];
    for (const barG of [2.4, 2.5]) {
      versions.push({ ...(versions[0] as Kept), ...pressure(barG) } as Kept);
      await on.phone.does("correctEntry", id, versions.at(-1) as Kept);
      await sendUntilSent(on);
    }
    const { head } = on.server.now.store.steamings.get(on.id) ?? {};
    /** the server as it was when it had that much of it */
    const broughtBack = async (entries: readonly Kept[]) => {
      const older = await runningApp();
      await older.ask("POST", "/api/locomotives", engine);
      await older.ask("POST", "/api/steamings", { ...head, entries });
      on.server.now = older;
    };
    const elsewhere = (entry: Kept) =>
      on.server.now.ask("PUT", `/api/steamings/${on.id}/entries/${id}?correction=true`, entry);
    return { on, id, versions, broughtBack, elsewhere };
  }

  test.each([
    ["the entry as it was tapped", 0, [4.2, 2.4]],
    ["the first correction of two", 1, [2.4]],
  ])(
    "that has %s gets what was corrected since: the phone's correction stands",
    async (_what, has, formers) => {
      const { on, versions, broughtBack } = await correctedHere();
      await broughtBack([versions[has] as Kept]);
      await on.phone.does("takeUpFrom", on.id);
      expect((await standing(on)).map(({ entry }) => entry)).toEqual([versions[2]]);
      await sendUntilSent(on);
      expect(entriesAt(on)).toEqual([versions[2]]);
      expect(formersAt(on)).toMatchObject(formers.map(pressure));
      await on.phone.does("takeUpFrom", on.id);
      const [record] = await standing(on);
      expect([record?.pending, record?.refused, record?.told]).toEqual([undefined, undefined, undefined]);
      expect(record?.former).toEqual(versions.slice(0, 2));
    },
  );

  test("is told from one where somebody put the old value back on purpose: that stands on the phone too", async () => {
    const { on, versions, elsewhere } = await correctedHere();
    await elsewhere(versions[0] as Kept);
    await on.phone.does("takeUpFrom", on.id);
    await sendUntilSent(on);
    expect(entriesAt(on)).toEqual([versions[0]]);
    const [record] = await standing(on);
    expect(record?.entry).toEqual(versions[0]);
    expect(record?.former).toEqual(versions);
  });

  test("and corrected there since, to what this phone never had, keeps that", async () => {
    const { on, versions, broughtBack, elsewhere } = await correctedHere();
    await broughtBack([versions[0] as Kept]);
    const theirs = { ...(versions[0] as Kept), ...pressure(3.3) } as Kept;
    await elsewhere(theirs);
    await on.phone.does("takeUpFrom", on.id);
    await sendUntilSent(on);
    expect(entriesAt(on)).toEqual([theirs]);
    expect((await standing(on))[0]?.former).toEqual(versions);
  });

  test("that does not answer how an entry was corrected changes nothing on the phone until it does", async () => {
    const { on, versions, broughtBack } = await correctedHere();
    await broughtBack([versions[0] as Kept]);
    on.phone.network((request) => (request.includes("history") ? "lost" : "answered"));
    await expect(on.phone.does("takeUpFrom", on.id)).rejects.toThrow();
    expect((await standing(on))[0]?.entry).toEqual(versions[2]);
    on.phone.network(() => "answered");
    await on.phone.does("takeUpFrom", on.id);
    await sendUntilSent(on);
    expect(entriesAt(on)).toEqual([versions[2]]);
  });

  test("has an entry again that was taken out here: it is taken out there once more", async () => {
    const { on, id, versions, broughtBack } = await correctedHere();
    await on.phone.does("deleteEntry", id);
    await sendUntilSent(on);
    await broughtBack([versions[2] as Kept]);
    await on.phone.does("takeUpFrom", on.id);
    expect(await standing(on)).toEqual([]);
    await sendUntilSent(on);
    expect(entriesAt(on)).toEqual([]);
    expect(await standing(on)).toEqual([]);
  });

  test("leaves a correction that was refused where it is: it is the owner's to mend", async () => {
    const { on, id, versions } = await correctedHere();
    await on.phone.does("correctEntry", id, { ...(versions[0] as Kept), ...pressure(1e6) } as Kept);
    await sendUntilSent(on);
    await on.phone.does("takeUpFrom", on.id);
    await sendUntilSent(on);
    const [record] = await standing(on);
    expect(record?.entry).toMatchObject(pressure(1e6));
    expect(record?.refused).toContain("barG");
    expect(entriesAt(on)).toEqual([versions[2]]);
  });

  test("that never heard of the steaming nor of the engine gets both again, with every entry once", async () => {
    const on = await bench();
    for (const barG of [1, 2]) await on.phone.does("tap", on.id, pressure(barG));
    await sendUntilSent(on);
    const before = entriesAt(on);
    on.server.now = await runningApp();
    await on.phone.does("tap", on.id, pressure(3));
    await sendUntilSent(on);
    expect(on.server.now.store.locomotives.get(engine.id)?.locomotive).toEqual(engine);
    expect(entriesAt(on).slice(0, 2)).toEqual(before);
    expect(entriesAt(on).map((entry) => "barG" in entry && entry.barG)).toEqual([1, 2, 3]);
  });

  test("that never heard of the steaming gets it again where only its particulars were to be told", async () => {
    const on = await bench();
    await on.phone.does("tap", on.id, pressure(1));
    await sendUntilSent(on);
    on.server.now = await runningApp();
    await on.phone.does("entitle", on.id, "Wet rail");
    await sendUntilSent(on);
    expect(on.server.now.store.steamings.get(on.id)?.head.title).toBe("Wet rail");
    expect(entriesAt(on)).toMatchObject([{ barG: 1 }]);
    expect((await on.phone.does("steaming", on.id))?.refused).toBeUndefined();
  });

  test("another device's entry that is gone from it is not offered by this phone", async () => {
    const on = await bench();
    await sendUntilSent(on);
    const { head } = on.server.now.store.steamings.get(on.id) ?? {};
    const other: Kept = { id: "other", atS: 1, kind: "pressure", barG: 1 };
    await on.phone.does("takeUp", head as never, engine, [other]);
    expect((await standing(on)).length).toBe(1);
    await on.phone.does("takeUp", head as never, engine, []);
    await sendUntilSent(on);
    expect(entriesAt(on)).toEqual([]);
    expect(await standing(on)).toEqual([]);
  });
});

describe("what the server refused", () => {
  test("a steaming that was taken out there is sent again with all its entries when the owner says so, and not before", async () => {
    const on = await bench();
    await on.phone.does("tap", on.id, pressure(1));
    await sendUntilSent(on);
    await on.server.now.ask("DELETE", `/api/steamings/${on.id}`);
    await on.phone.does("tap", on.id, pressure(2));
    await sendUntilSent(on);
    expect(on.server.now.store.steamings.get(on.id)).toBeUndefined();
    expect((await on.phone.does("steaming", on.id))?.refused).toContain("taken out");
    expect((await on.phone.does("recordsOf", on.id)).at(-1)?.refused).toContain("taken out");
    await on.phone.does("beginAgain", on.id);
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([{ barG: 1 }, { barG: 2 }]);
    expect((await on.phone.does("steaming", on.id))?.refused).toBeUndefined();
    expect((await standing(on)).map(({ refused }) => refused)).toEqual([undefined, undefined]);
  });

  test("an entry of a fitting that was not there is sent again once it is", async () => {
    const on = await bench();
    const drip = { kind: "drip", fitting: "new-gland", g: 1, overS: 60 };
    const { id } = await on.phone.does("tap", on.id, drip);
    await sendUntilSent(on);
    expect(entriesAt(on)).toEqual([]);
    expect((await standing(on))[0]?.refused).toContain("fitting");
    const more = { id: "new-gland", name: "New gland", kind: "gland" };
    await on.server.now.ask("PUT", `/api/locomotives/${engine.id}`, {
      ...engine,
      fittings: [...engine.fittings, more],
    });
    await on.phone.does("sendEntryAgain", id);
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([{ id, fitting: "new-gland" }]);
    expect((await standing(on))[0]?.refused).toBeUndefined();
  });

  test("a value that was refused and then corrected is kept as corrected", async () => {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(1e6));
    await sendUntilSent(on);
    expect((await standing(on))[0]?.refused).toContain("barG");
    const [before] = await on.phone.does("recordsOf", on.id);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(1) } as Kept);
    await sendUntilSent(on);
    expect(entriesAt(on)).toMatchObject([{ id, barG: 1 }]);
    expect((await standing(on))[0]?.refused).toBeUndefined();
  });
});

describe("what another device makes of an entry", () => {
  test("keeps what it replaces on the phone, as it came over the stream and as it was read anew", async () => {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(1));
    await sendUntilSent(on);
    const [entry] = entriesAt(on);
    await on.phone.does("heardOfEntry", on.id, id, { ...(entry as Kept), ...pressure(1.1) } as Kept);
    const { head } = on.server.now.store.steamings.get(on.id) ?? {};
    const now = { ...(entry as Kept), ...pressure(1.2) } as Kept;
    await on.phone.does("takeUp", head as never, engine, [now]);
    await on.phone.does("takeUp", head as never, engine, [now]);
    const [record] = await standing(on);
    expect(record?.entry).toMatchObject({ barG: 1.2 });
    expect(record?.former).toMatchObject([{ barG: 1 }, { barG: 1.1 }]);
  });

  test("a first sending that finds it corrected there keeps its own value in the list", async () => {
    const on = await bench();
    const { id } = await on.phone.does("tap", on.id, pressure(1));
    on.phone.network((request) => (request.includes("entries") ? "answer lost" : "answered"));
    await on.phone.does("send");
    const [entry] = entriesAt(on);
    const correction = { ...entry, barG: 1.5 };
    await on.server.now.ask("PUT", `/api/steamings/${on.id}/entries/${id}?correction=true`, correction);
    on.phone.network(() => "answered");
    await sendUntilSent(on);
    const [record] = await standing(on);
    expect(record?.entry).toEqual(correction);
    expect(record?.former).toEqual([entry]);
    expect(entriesAt(on)).toEqual([correction]);
  });

  test("an entry that a full steaming does not take is said to be refused, and not taken for sent", async () => {
    const on = await bench();
    await sendUntilSent(on);
    const { ask } = on.server.now;
    const full = "a steaming takes 200000 entries";
    on.server.now.ask = async (method, url, body) => {
      const answer = await ask(method, url, body);
      if (method !== "POST") return answer;
      const items = (answer.body as { id: string }[]).map(({ id }) => ({
        id,
        status: 409,
        code: "steaming-full",
        message: full,
      }));
      return { ...answer, text: JSON.stringify(items) };
    };
    await on.phone.does("tap", on.id, pressure(1));
    await sendUntilSent(on);
    expect((await standing(on))[0]?.refused).toBe(full);
  });
});

interface Outcome {
  entries: { added: number; same: number; differs: number };
}

describe("a copy saved before the phone's clock was checked", () => {
  async function copied(): Promise<Bench & { startedMs: number; tappedMs: number; text: string }> {
    const startedMs = Date.now();
    const on = await bench(HOUR_MS);
    await on.phone.does("tap", on.id, pressure(1));
    const { id } = await on.phone.does("tap", on.id, pressure(42));
    const [, before] = await on.phone.does("recordsOf", on.id);
    await on.phone.does("correctEntry", id, { ...(before?.entry as Kept), ...pressure(4.2) } as Kept);
    return { ...on, startedMs, tappedMs: Date.now(), text: await on.phone.does("copy", on.id) };
  }

  test("holds the best guess and freezes no time: what is sent later has the true one", async () => {
    const on = await copied();
    const { steamings } = JSON.parse(on.text) as { steamings: { startedAt: string; entries: Kept[] }[] };
    expect(Math.abs(Date.parse(steamings[0]?.startedAt ?? "") - HOUR_MS - on.startedMs)).toBeLessThan(5000);
    expect(steamings[0]?.entries).toMatchObject([{ barG: 1 }, { barG: 4.2 }]);
    expect((await standing(on)).map(({ settled }) => settled)).toEqual([undefined, undefined]);
    await sendUntilSent(on);
    for (const error of errorsMs(on, on.startedMs, [on.tappedMs, on.tappedMs])) {
      expect(error).toBeLessThan(5000);
    }
  });

  test("brought in before the phone sends makes no doubles, and what is sent mends its times and keeps what corrections replaced", async () => {
    const on = await copied();
    const brought = await on.server.now.ask("POST", "/api/logbook", on.text);
    expect((brought.body as Outcome).entries).toMatchObject({ added: 2, same: 0, differs: 0 });
    await sendUntilSent(on);
    expect((await on.phone.does("steaming", on.id))?.refused).toBeUndefined();
    expect((await standing(on)).map(({ refused }) => refused)).toEqual([undefined, undefined]);
    expect(entriesAt(on)).toMatchObject([{ barG: 1 }, { barG: 4.2 }]);
    expect(formersAt(on).some((former) => former !== null && "barG" in former && former.barG === 42)).toBe(
      true,
    );
    for (const error of errorsMs(on, on.startedMs, [on.tappedMs, on.tappedMs])) {
      expect(error).toBeLessThan(5000);
    }
    expect(entriesAt(on)).toEqual((await standing(on)).map(({ entry }) => entry));
  });

  test("brought in after the phone has sent changes nothing: it is refused as differing, and all is there already", async () => {
    const on = await copied();
    await sendUntilSent(on);
    const before = entriesAt(on);
    const brought = await on.server.now.ask("POST", "/api/logbook", on.text);
    expect(brought.status).toBe(409);
    expect(brought.body).toMatchObject({ code: "logbook-differs" });
    expect(entriesAt(on)).toEqual(before);
    expect(before.length).toBe(2);
  });
});

test("what is tapped in two tabs before the server ever answered gets its true time whichever tab sends", async () => {
  const startedMs = Date.now();
  const on = await bench(HOUR_MS);
  const other = await on.phone.tab();
  await other.does("tap", on.id, pressure(1));
  const tappedMs = Date.now();
  await sendUntilSent(on);
  for (const error of errorsMs(on, startedMs, [tappedMs])) expect(error).toBeLessThan(5000);
});
