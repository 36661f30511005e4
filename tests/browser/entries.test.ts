import { expect, test } from "vitest";
import type { Entry } from "../../src/logbook/entry.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { visit } from "../support/browser-page.ts";
import { startServer } from "../support/server.ts";
import { smallLogbook } from "../support/small-logbook.ts";

const { browser, server } = await browserAndServer(startServer("--no-demo"));
await server.ask("/api/logbook", "POST", smallLogbook());

const entries = async (): Promise<Entry[]> =>
  ((await server.ask("/api/steamings/small-run")) as { entries: Entry[] }).entries;
const sheet = () => `${server.address}/#/sheet/small-run`;

test("an entry is typed in, corrected, deleted and put back, and the server keeps each of these", async () => {
  const { page, troubles } = await visit(browser, sheet());
  await page.getByRole("button", { name: "Write down an entry" }).click();
  await page.getByLabel(/^At/).fill("4:10");
  await page.getByLabel(/^Pressure by the gauge/).fill("2,95");
  await page.getByRole("button", { name: "Keep the entry" }).click();
  await page.getByText("Kept: pressure at 4:10").waitFor();
  const kept = (await entries()).find((entry) => entry.atS === 250);
  expect(kept).toMatchObject({ kind: "pressure", barG: 2.95 });

  await page.getByRole("button", { name: "Correct pressure at 4:10" }).click();
  const correction = page.getByRole("form", { name: "Correct the entry" });
  await correction.getByLabel(/^Pressure by the gauge/).fill("2.85");
  await correction.getByRole("button", { name: "Keep the correction" }).click();
  await page.getByText("Corrected: pressure at 4:10").waitFor();
  expect((await entries()).find((entry) => entry.id === kept?.id)).toMatchObject({ barG: 2.85 });

  await page.getByRole("button", { name: "Delete pressure at 4:10" }).click();
  await page.getByText("Deleted:").first().waitFor();
  expect((await entries()).some((entry) => entry.atS === 250)).toBe(false);

  await page.getByRole("button", { name: "Put it back" }).click();
  await page.getByText("Back again: pressure 2.85 bar at 4:10").waitFor();
  expect((await entries()).filter((entry) => entry.atS === 250)).toMatchObject([{ barG: 2.85 }]);
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("an entry that the format refuses is named at its field, and what was typed stays", async () => {
  const { page } = await visit(browser, sheet());
  const before = await entries();
  await page.getByRole("button", { name: "Write down an entry" }).click();
  await page.getByLabel(/^Pressure by the gauge/).fill("three");
  await page.getByRole("button", { name: "Keep the entry" }).click();
  await page.getByText("what you typed is still here").waitFor();
  const field = page.getByLabel(/^Pressure by the gauge/);
  expect(await field.inputValue()).toBe("three");
  expect(await field.getAttribute("aria-invalid")).toBe("true");
  await page.getByText('Came the text "three". Wanted: a number.').waitFor();
  expect(await entries()).toEqual(before);
  await page.context().close();
});

test("the entries say what a correction replaced, and what was deleted is not lost", async () => {
  const { page, troubles } = await visit(browser, sheet());
  const entry = { atS: 333, kind: "pressure", barG: 4.2 };
  const path = "/api/steamings/small-run/entries/corrected-once";
  await server.ask(path, "PUT", entry);
  await server.ask(`${path}?correction=true`, "PUT", { ...entry, barG: 2.4 });
  await server.ask(`${path}?correction=true`, "PUT", { ...entry, barG: 2.4, atS: 334 });
  await page.reload();
  await page.getByRole("combobox", { name: "Show" }).selectOption("pressure");
  const row = page.getByRole("row").filter({ hasText: "5:34" });
  await row.getByText("was 4.2 bar at 5:33").waitFor();
  await row.getByText("was 2.4 bar at 5:33").waitFor();
  await server.ask(path, "DELETE");
  await page.reload();
  await page.getByText(/^Deleted: \d+$/).click();
  await page.getByText("5:34 pressure 2.4 bar").waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("without an answer from the server the form keeps what was typed, and sends it when asked again", async () => {
  const { page } = await visit(browser, sheet());
  await page.getByRole("button", { name: "Write down an entry" }).click();
  await page.getByRole("combobox", { name: "What" }).selectOption("level");
  await page.getByLabel(/^At/).fill("5:00");
  await page.getByRole("textbox", { name: "Water in the glass" }).fill("14.5");
  await page.route("**/entries/**", (route) => route.abort());
  await page.getByRole("button", { name: "Keep the entry" }).click();
  await page.getByText("The server does not answer").waitFor();
  expect(await page.getByRole("textbox", { name: "Water in the glass" }).inputValue()).toBe("14.5");
  await page.unroute("**/entries/**");
  await page.getByRole("button", { name: "Keep the entry" }).click();
  await page.getByText("Kept: water in the glass at 5:00").waitFor();
  expect((await entries()).filter((entry) => entry.atS === 300)).toMatchObject([{ kind: "level", mm: 14.5 }]);
  await page.context().close();
});

test("an engine and a steaming of hers are begun by form, in the reader's own units", async () => {
  const { page, troubles } = await visit(browser, server.address);
  await page.getByText("Units and light").click();
  await page.getByRole("radio", { name: "psi" }).check();
  await page.getByRole("button", { name: "Add an engine" }).click();
  await page.getByLabel(/^Name/).fill("Wren");
  await page.getByLabel(/^Working pressure/).fill("40");
  await page.getByLabel(/^Inner diameter of the shell/).fill("50");
  await page.getByLabel(/^Inner length/).fill("150");
  await page.getByLabel(/^Lowest level in the glass/).fill("3");
  await page.getByLabel(/^Highest level in the glass/).fill("20");
  await page.getByLabel(/^Weight of the boiler/).fill("600");
  await page.getByRole("button", { name: "Save the engine" }).click();
  await page.getByText("Wren is saved.").waitFor();
  const engines = (await server.ask("/api/locomotives")) as { name: string; workingPressureBarG: number }[];
  expect(engines.find((engine) => engine.name === "Wren")?.workingPressureBarG).toBeCloseTo(2.757903, 6);

  await page.getByRole("region", { name: "Wren" }).getByRole("button", { name: "New steaming" }).click();
  await page.getByLabel(/^Title/).fill("First fire");
  await page.getByRole("button", { name: "Begin the steaming" }).click();
  await page.getByRole("heading", { name: /First fire/ }).waitFor();
  await page.getByText("Nothing is written down yet.").waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("an engine that is edited in other units keeps what was not touched as it was", async () => {
  const { page, troubles } = await visit(browser, server.address);
  const before = (await server.ask("/api/locomotives/small")) as Record<string, unknown>;
  await page.getByText("Units and light").click();
  for (const unit of ["psi", "fl oz", "in", "°F"])
    await page.getByRole("radio", { name: unit, exact: true }).check();
  await page.getByRole("region", { name: "Small" }).getByRole("button", { name: "Edit" }).click();
  await page.getByRole("textbox", { name: "Name" }).fill("Small, lagged");
  await page.getByRole("button", { name: "Save the engine" }).click();
  await page.getByText("Small, lagged is saved.").waitFor();
  expect(await server.ask("/api/locomotives/small")).toEqual({ ...before, name: "Small, lagged" });
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a sheet that does not exist is said not to, with a way to try again", async () => {
  const { page } = await visit(browser, `${server.address}/#/sheet/nowhere`);
  await page.getByText("there is no steaming nowhere").waitFor();
  await page.getByRole("button", { name: "Try again" }).waitFor();
  await page.context().close();
});

test("a steaming that was taken out is put back whole", async () => {
  const { page, troubles } = await visit(browser, sheet());
  const before = await server.ask("/api/steamings/small-run");
  await page.getByRole("button", { name: "Take this steaming out" }).click();
  await page.getByRole("button", { name: "Put it back" }).click();
  await page.getByRole("button", { name: "Write down an entry" }).waitFor();
  expect(await server.ask("/api/steamings/small-run")).toEqual(before);
  expect(troubles).toEqual([]);
  await page.context().close();
});
