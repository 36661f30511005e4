import type { Page } from "playwright-core";
import { openBrowser } from "../support/browser.ts";
import { beginSteaming, bounceOver, kept, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

export interface TapToKept {
  /** from the touch as the browser stamped it to the page's saying that it is kept, at a sixth of the speed */
  medianMs: number;
  /** of the fastest tenth: on a busy machine the rest tells of other programs */
  quickMs: number;
  /** a bare write of one record to the same disk, by the same page, between the taps */
  bareMedianMs: number;
  taps: number;
}

const SLOWED = 6;
const WARM_UP = 10;
const TAPS = 60;

/**
 * Laps tapped on a steaming of an hour's entries, on a processor that Chromium slows down to a sixth: until the entry is
 * on the disk and the page says so. Other work on the machine counts with it; the thread's own time does not.
 */
export async function tapToKept(): Promise<TapToKept> {
  const [browser, server] = await Promise.all([openBrowser(), restartableServer()]);
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
    const id = await beginSteaming(page, server.address);
    await page.locator(".contact", { hasText: "all sent" }).waitFor();
    const hour = Array.from({ length: 120 }, (_, i) => ({
      id: `before-${i}`,
      atS: -3600 + 30 * i,
      ...(i % 3 === 0 ? { kind: "pressure", barG: 2.8 } : { kind: "lap", count: 1 }),
    }));
    await server.ask(`/api/steamings/${id}/entries`, "POST", hour);
    await page.reload();
    await tile(page, "Lap").filter({ hasText: "81" }).waitFor();
    const session = await page.context().newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    await page.evaluate(() => {
      const taps = { startMs: 0, tookMs: [] as number[] };
      Object.assign(window, { lapwaterBenchTaps: taps });
      addEventListener("click", (event) => Object.assign(taps, { startMs: event.timeStamp }), true);
      const said = document.querySelector(".said");
      if (said === null) throw new Error("nothing says what is kept");
      new MutationObserver(() => {
        if (taps.startMs === 0) return;
        taps.tookMs.push(performance.now() - taps.startMs);
        taps.startMs = 0;
      }).observe(said, { attributes: true, attributeFilter: ["data-number"] });
    });
    const bare: number[] = [];
    for (let i = 1; i <= WARM_UP + TAPS; i++) {
      await page.touchscreen.tap(195, 770);
      await kept(page, i);
      // what this lap set off is done before anything else is timed
      await bounceOver(page);
      bare.push(await bareWriteMs(page));
    }
    const took = await page.evaluate(
      () => (window as unknown as { lapwaterBenchTaps: { tookMs: number[] } }).lapwaterBenchTaps.tookMs,
    );
    if (took.length !== WARM_UP + TAPS)
      throw new Error(`${took.length} of ${WARM_UP + TAPS} taps were timed`);
    const sorted = took.slice(WARM_UP).sort((a, b) => a - b);
    const sortedBare = bare.slice(WARM_UP).sort((a, b) => a - b);
    return {
      medianMs: sorted[TAPS >> 1] ?? Number.NaN,
      quickMs: sorted[Math.floor(0.1 * TAPS)] ?? Number.NaN,
      bareMedianMs: sortedBare[TAPS >> 1] ?? Number.NaN,
      taps: sorted.length,
    };
  } finally {
    await browser.close();
    await server.stop();
  }
}

/** One small record, durable before it counts, in a store of the bench's own. */
const bareWriteMs = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open("lapwater-bench", 1);
        opening.onupgradeneeded = () => opening.result.createObjectStore("records", { autoIncrement: true });
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const startMs = performance.now();
          const writing = opening.result.transaction("records", "readwrite", { durability: "strict" });
          writing.objectStore("records").add({ kind: "lap", count: 1, atS: startMs });
          writing.onerror = () => reject(writing.error);
          writing.oncomplete = () => {
            const tookMs = performance.now() - startMs;
            opening.result.close();
            resolve(tookMs);
          };
        };
      }),
  );
