import type { Browser, Page } from "playwright-core";

export const sizes = {
  phone: { width: 390, height: 844 },
  laptop: { width: 1280, height: 800 },
} as const;

export interface Visit {
  page: Page;
  /** what went wrong in the page: errors of the console and of scripts, requests to another machine */
  troubles: string[];
}

export interface VisitOptions {
  size?: keyof typeof sizes;
  theme?: string;
  /** of a paired device, for pages at an address of the network */
  token?: string;
}

/** A new visitor with nothing stored, whose page reports every error and every request that leaves the machine. */
export async function visit(browser: Browser, address: string, options: VisitOptions = {}): Promise<Visit> {
  const context = await browser.newContext({ viewport: sizes[options.size ?? "laptop"] });
  if (options.theme !== undefined) {
    await context.addInitScript((theme) => {
      localStorage.setItem("lapwater.theme", JSON.stringify([theme]));
    }, options.theme);
  }
  if (options.token !== undefined) {
    await context.addInitScript((token) => {
      localStorage.setItem("lapwater.token", JSON.stringify([token]));
    }, options.token);
  }
  const page = await context.newPage();
  const troubles: string[] = [];
  const own = new URL(address).host;
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning")
      troubles.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => troubles.push(`script: ${error.message}`));
  page.on("request", (request) => {
    const { protocol, host } = new URL(request.url());
    if (!["data:", "blob:"].includes(protocol) && host !== own) troubles.push(`request to ${request.url()}`);
  });
  await page.goto(address);
  return { page, troubles };
}

/** Waits until all charts of the page are drawn; there must be at least one. */
export async function chartsDrawn(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const canvases = [...document.querySelectorAll("canvas")];
    return canvases.length > 0 && canvases.every((canvas) => canvas.dataset.drawn === "yes");
  });
}

/** Pixels by which the page is wider than its window. */
export const tooWideBy = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
