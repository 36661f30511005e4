import { expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { visit } from "../support/browser-page.ts";
import { startServer } from "../support/server.ts";
import { valveEngine, valveTest } from "../support/valve-test.ts";

const { browser, server } = await browserAndServer(startServer("--no-demo"));

/** What is said of the rise, once it says so much. */
const LIMIT = "Your code's limit above working pressure";

test("the limit of the owner's code takes the place of the usual one at once, stays in this browser, and leaves when emptied", async () => {
  await server.ask("/api/logbook", "POST", {
    format: "lapwater-logbook",
    version: 1,
    locomotives: [valveEngine()],
    steamings: [valveTest("valve-test", { lifts: true, reseats: true })],
    services: [],
  });
  const { page, troubles } = await visit(browser, `${server.address}/#/sheet/valve-test`);
  const group = page.locator(".figure-group", { has: page.getByRole("heading", { name: "Safety valve" }) });
  const says = (words: string) => group.getByText(words).waitFor();
  const field = page.getByLabel(LIMIT);
  await says("under the 10 % that model codes commonly allow");
  expect(await field.inputValue()).toBe("");
  expect(await field.getAttribute("aria-describedby")).toBe("valve-limit-hint");
  expect(await page.locator("#valve-limit-hint").textContent()).toContain("10 if left empty");

  await field.fill("4,5");
  await says("beyond the 4.5 % that you entered from your code");
  await page.reload();
  await says("beyond the 4.5 % that you entered from your code");
  expect(await field.inputValue()).toBe("4.5");

  for (const nonsense of ["0", "-3", "51", "six"]) {
    await field.fill("12");
    await says("under the 12 % that you entered from your code");
    await field.fill(nonsense);
    await says("under the 10 % that model codes commonly allow");
  }
  await field.fill("12");
  await field.fill("");
  await says("under the 10 % that model codes commonly allow");
  await page.reload();
  await says("under the 10 % that model codes commonly allow");
  expect(await field.inputValue()).toBe("");
  expect(troubles).toEqual([]);
  await page.context().close();
});
