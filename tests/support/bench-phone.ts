import { fileURLToPath } from "node:url";
import type { Browser, Page, Route } from "playwright-core";
import { build } from "vite";
import type * as Hand from "./phone-hand.ts";

/** What becomes of a request on its way: it arrives and is answered, never arrives, or its answer is lost. */
export type Fate = "answered" | "lost" | "answer lost";

type Ask = (method: string, path: string, text: string | null) => Promise<{ status: number; text: string }>;

/** A phone's outbox without its pages, in a real browser, before a server that is asked as the test says. */
export interface BenchPhone {
  page: Page;
  /** what the phone asked, one "METHOD path" each, without the clock */
  asked: string[];
  /** decides the fate of each request that is not of the clock */
  network: (fate: (request: string, number: number) => Fate) => void;
  /** calls one of the hands by name, in the page */
  does: <Name extends keyof typeof Hand>(
    name: Name,
    ...given: Parameters<(typeof Hand)[Name]>
  ) => Promise<Awaited<ReturnType<(typeof Hand)[Name]>>>;
  /** the page is gone and comes back: only what is on the disk is left */
  reload: () => Promise<void>;
  /** what another page of the same browser is */
  tab: () => Promise<BenchPhone>;
}

let script: Promise<string> | null = null;

async function bundled(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: "silent",
    build: {
      write: false,
      minify: false,
      lib: {
        entry: fileURLToPath(new URL("phone-hand.ts", import.meta.url)),
        formats: ["iife"],
        name: "hand",
      },
    },
  });
  const [first] = Array.isArray(built) ? built : [built];
  if (first === undefined || !("output" in first)) throw new Error("nothing was built");
  return `${first.output[0].code}\nwindow.hand = hand;`;
}

const address = "http://bench.example/";

/** @param wrongMs by which the phone's wall clock is ahead; a test may change `window.wrongMs` later */
export async function benchPhone(browser: Browser, ask: Ask, wrongMs = 0): Promise<BenchPhone> {
  script ??= bundled();
  const code = await script;
  const context = await browser.newContext();
  const asked: string[] = [];
  let fateOf: (request: string, number: number) => Fate = () => "answered";
  const answer = async (route: Route) => {
    const request = route.request();
    const { pathname, search } = new URL(request.url());
    if (pathname === "/") return route.fulfill({ contentType: "text/html", body: "<title>bench</title>" });
    const name = `${request.method()} ${pathname}${search}`;
    const isClock = pathname === "/api/clock";
    if (!isClock) asked.push(name);
    const fate = isClock ? "answered" : fateOf(name, asked.length);
    if (fate === "lost") return route.abort();
    const { status, text } = await ask(request.method(), `${pathname}${search}`, request.postData());
    if (fate === "answer lost") return route.abort();
    return route.fulfill({ status, body: text, contentType: "application/json" });
  };
  await context.route("**/*", (route) => answer(route).catch(() => undefined));
  await context.addInitScript(`{
    const right = Date.now.bind(Date);
    window.wrongMs = Number(sessionStorage.getItem("wrongMs") ?? ${wrongMs});
    const Real = Date;
    window.Date = class extends Real {
      constructor(...given) { if (given.length === 0) super(right() + window.wrongMs); else super(...given); }
      static now() { return right() + window.wrongMs; }
    };
  }`);
  await context.addInitScript(code);
  const opened = async (): Promise<BenchPhone> => {
    const page = await context.newPage();
    await page.goto(address);
    return {
      page,
      asked,
      network: (fate) => {
        fateOf = fate;
      },
      does: (name, ...given) =>
        page.evaluate(
          ([called, args]) =>
            (window as unknown as { hand: Record<string, (...a: unknown[]) => unknown> }).hand[called]?.(
              ...args,
            ),
          [name as string, given as unknown[]] as const,
        ) as ReturnType<BenchPhone["does"]> as never,
      reload: async () => {
        await page.reload();
      },
      tab: opened,
    };
  };
  return opened();
}
