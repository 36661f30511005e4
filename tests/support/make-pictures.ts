import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { openBrowser } from "./browser.ts";
import { chartsDrawn, type sizes, visit } from "./browser-page.ts";
import { startServer } from "./server.ts";

/** Pictures of the pages for the README, taken from the demonstration: `npm run pictures`. */
const folder = fileURLToPath(new URL("../../web/pictures/", import.meta.url));
interface Picture {
  name: string;
  size: keyof typeof sizes;
  of: (runs: string[]) => string;
  /** words that stand when it is ready; charts that are drawn, where absent */
  until?: string;
}

const pictures: Picture[] = [
  { name: "test-sheet", size: "laptop", of: ([run]: string[]) => `#/sheet/${run}` },
  {
    name: "compare",
    size: "laptop",
    of: (runs: string[]) => `#/compare?runs=${runs.slice(0, 2).join(",")}&by=lit`,
  },
  { name: "fitters-book", size: "laptop", of: () => "#/fitter/tansy?fitting=right-gland" },
  { name: "tank-bench", size: "laptop", of: () => "#/tank-bench", until: "is expected to draw" },
];

const [browser, server] = await Promise.all([openBrowser(), startServer()]);
try {
  mkdirSync(folder, { recursive: true });
  const steamings = (await server.ask("/api/steamings")) as { id: string; title?: string; laps: number }[];
  const runs = steamings.filter((each) => each.title?.startsWith("Four wagons")).map((each) => each.id);
  for (const { name, size, of, until } of pictures) {
    const { page, troubles } = await visit(browser, `${server.address}/${of(runs)}`, {
      size,
      theme: "normal",
    });
    await (until === undefined ? chartsDrawn(page) : page.getByText(until).first().waitFor());
    if (troubles.length > 0) throw new Error(`${name}: ${troubles.join("; ")}`);
    await page.screenshot({ path: `${folder}${name}.png` });
    process.stdout.write(`web/pictures/${name}.png\n`);
    await page.context().close();
  }
} finally {
  await browser.close();
  await server.stop();
}
