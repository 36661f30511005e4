import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { violations } from "../support/accessibility.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { chartsDrawn, sizes, tooWideBy, visit } from "../support/browser-page.ts";
import { tapBegin } from "../support/footplate.ts";
import { startServer } from "../support/server.ts";
import { smallLogbook } from "../support/small-logbook.ts";

const { browser, server } = await browserAndServer(startServer("--lan"));
const [first] = (await server.ask("/api/steamings")) as { id: string }[];
const { address: network } = (await server.ask("/api/pairing/codes", "POST", { may: "view" })) as {
  address: string;
};

const file = (content: unknown) => ({
  name: "from elsewhere.json",
  mimeType: "application/json",
  buffer: Buffer.from(JSON.stringify(content)),
});
const press = (page: Page, name: string | RegExp) => page.getByRole("button", { name }).click();

/** What a page shows when something is amiss, is asked, or was just done; each from where the one before it ended. */
const atTheServer: Record<string, (page: Page, go: (hash: string) => Promise<unknown>) => Promise<unknown>> =
  {
    "no such room": async (page, go) => {
      await go("#/nowhere");
      await page.getByRole("heading", { name: "There is no such room" }).waitFor();
    },
    "a file with problems": async (page, go) => {
      await go("#/logbook");
      await page
        .locator("input[type=file]")
        .setInputFiles(file({ ...smallLogbook(), locomotives: [{ id: "x" }] }));
      await page.getByText("Mend the file and bring it in again.").waitFor();
    },
    "a file that is none": async (page) => {
      await page.locator("input[type=file]").setInputFiles(file("nothing"));
      await page.getByText("Mend the file and bring it in again.").waitFor();
    },
    "a file to be brought in": async (page) => {
      await page.locator("input[type=file]").setInputFiles(file(smallLogbook()));
      await page.getByRole("button", { name: "Add it" }).waitFor();
    },
    "an engine's form with problems": async (page, go) => {
      await go("#/shed");
      await press(page, "Add an engine");
      await press(page, "Save the engine");
      await page.getByRole("alert").first().waitFor();
    },
    "a new steaming's form": async (page) => {
      await page.reload();
      await press(page, "New steaming");
      await page.getByLabel("Purpose").waitFor();
    },
    "an entry without its figure": async (page, go) => {
      await go(`#/sheet/${first?.id}`);
      await chartsDrawn(page);
      await press(page, "Write down an entry");
      await press(page, "Keep the entry");
      await page.locator("[aria-invalid=true]").first().waitFor();
    },
    "a steaming that goes on, and whether to begin another": async (page, go) => {
      await go("#/footplate");
      await tapBegin(page);
      await go("#/footplate");
      await press(page, /^Begin: /);
      await page.getByText("She is in steam already").waitFor();
      await page.getByRole("button", { name: /^Drop it/ }).waitFor();
    },
    "a steaming that was dropped, beside one that is over": async (page, go) => {
      await press(page, "Begin another");
      await page.locator(".key.lap").waitFor();
      await press(page, "More");
      await press(page, "This steaming is over");
      await page.getByRole("heading", { name: "Over, kept on this phone" }).waitFor();
      await go("#/footplate");
      await page
        .locator(".panel-keys")
        .getByRole("button", { name: /^Drop it/ })
        .click();
      await page.getByText("is dropped.").waitFor();
    },
  };

const inTheNetwork: typeof atTheServer = {
  "the Shed before a phone is paired": async (page, go) => {
    await go("#/shed");
    await page.getByRole("link", { name: "Pair this device" }).waitFor();
  },
  "a phone that is not paired": async (page, go) => {
    await go("#/footplate");
    await page.getByRole("button", { name: "Pair it" }).waitFor();
  },
  "a code that is refused": async (page, go) => {
    await go("#/pair");
    await page.getByLabel("Code that the server shows").fill("AAAA-AAAA");
    await press(page, "Pair it");
    await page.getByRole("alert").first().waitFor();
  },
};

async function clean(page: Page, states: typeof atTheServer): Promise<void> {
  page.setDefaultTimeout(15_000);
  const go = (hash: string) => page.goto(new URL(hash, page.url()).href);
  for (const [name, show] of Object.entries(states)) {
    await show(page, go);
    expect(await violations(page), name).toEqual([]);
    expect(await tooWideBy(page), name).toBeLessThanOrEqual(0);
  }
}

describe.each(["sun", "normal", "night"])("in the %s light", (theme) => {
  // what a light changes is the same on every screen
  const screens = theme === "normal" ? (Object.keys(sizes) as (keyof typeof sizes)[]) : (["phone"] as const);
  test.each(screens)(
    "on a %s nothing that is amiss, asked or just done breaks WCAG 2.2 AA or scrolls sideways",
    async (size) => {
      const here = await visit(browser, server.address, { theme, size });
      await clean(here.page, atTheServer);
      const there = await visit(browser, network, { theme, size });
      await clean(there.page, inTheNetwork);
      await Promise.all([here.page.context().close(), there.page.context().close()]);
    },
    240_000,
  );
});
