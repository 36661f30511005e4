import { openBrowser } from "../support/browser.ts";
import { startServer } from "../support/server.ts";

export interface Moves {
  /** processor time of one move at a quarter of this machine's speed */
  medianMs: number;
  slowestMs: number;
  moves: number;
}

const SLOWED = 4;
const sliders = ["Length outside, slider", "Height outside, slider", "Length of the run, slider"];

/**
 * What the Tank bench takes from a slider's move to its answer laid out and painted: time of the page's own thread, so
 * that other work on the machine does not count, times four for a processor of a quarter of the speed. Every move
 * must change what is said.
 */
export async function tankBenchMoves(): Promise<Moves> {
  const [browser, server] = await Promise.all([openBrowser(), startServer()]);
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await page.goto(`${server.address}/#/tank-bench`);
    await page.getByText("is expected to draw").waitFor();
    const session = await page.context().newCDPSession(page);
    await session.send("Performance.enable", { timeDomain: "threadTicks" });
    const busyMs = async () => {
      const { metrics } = await session.send("Performance.getMetrics");
      return 1000 * (metrics.find(({ name }) => name === "TaskDuration")?.value ?? Number.NaN);
    };
    const strip = () => page.locator(".bench-strip").textContent();
    const times: number[] = [];
    for (let i = 0; i < 45; i++) {
      // found beforehand: looking for it would count as the page's work
      const slider = await page.$(`[aria-label="${sliders[i % sliders.length]}"]`);
      if (slider === null) throw new Error(`no slider ${sliders[i % sliders.length]}`);
      const value = Number(await slider.inputValue()) + (i % 2 === 0 ? 4 : 3);
      const before = await strip();
      const idle = await busyMs();
      await slider.evaluate((element, next) => {
        (element as HTMLInputElement).value = next;
        element.dispatchEvent(new Event("input", { bubbles: true }));
        // answered once the next frame is drawn
        return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve, 0)));
      }, String(value));
      times.push(SLOWED * ((await busyMs()) - idle));
      if ((await strip()) === before) throw new Error(`move ${i} changed nothing`);
    }
    const warm = times.slice(9).sort((a, b) => a - b);
    return {
      medianMs: warm[warm.length >> 1] ?? Number.NaN,
      slowestMs: warm.at(-1) ?? Number.NaN,
      moves: warm.length,
    };
  } finally {
    await browser.close();
    await server.stop();
  }
}
