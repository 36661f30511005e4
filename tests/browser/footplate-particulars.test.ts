import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, beginSteaming, bounceOver, tapBegin } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());

async function phone(): Promise<Page> {
  const context = await browser.newContext({ viewport: sizes.phone });
  context.setDefaultTimeout(15_000);
  return context.newPage();
}

async function change(page: Page, fields: Readonly<Record<string, string>>): Promise<void> {
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  await page.locator(".overlay .key").filter({ hasText: "Particulars" }).click();
  for (const [label, value] of Object.entries(fields)) {
    await page.getByLabel(new RegExp(`^${label}`)).fill(value);
  }
  await bounceOver(page);
  await page.getByRole("button", { name: /^Keep the change/ }).click();
}
const said = (page: Page) => page.locator(".said", { hasText: "particulars kept" }).waitFor();
const headAt = async (id: string) => {
  const { entries, traces, ...head } = (await server.ask(`/api/steamings/${id}`)) as Record<string, unknown>;
  return head;
};

test("particulars changed without the server are kept, shown and sent later, beside what another device changed", async () => {
  const page = await phone();
  const id = await beginSteaming(page, server.address);
  await allSent(page);
  const begun = await headAt(id);
  await page.context().setOffline(true);
  await change(page, { Title: "Six wagons", "Length of a lap": "31.5", Place: "the club's oval" });
  await said(page);
  await page.locator(".contact", { hasText: "1 kept here, not sent" }).waitFor();
  await page.getByRole("heading", { name: "Tansy · Six wagons" }).waitFor();
  await server.ask(`/api/steamings/${id}`, "PUT", { ...begun, notes: "from the house", title: "Overruled" });
  await page.context().setOffline(false);
  await allSent(page);
  expect(await headAt(id)).toEqual({
    ...begun,
    title: "Six wagons",
    track: { lapM: 31.5, place: "the club's oval" },
    notes: "from the house",
  });
  // taking one out is a change as well
  await change(page, { Title: "" });
  await expect.poll(async () => (await headAt(id)).title, { timeout: 15_000 }).toBeUndefined();
  expect(await headAt(id)).toMatchObject({ id, startedAt: begun.startedAt, notes: "from the house" });
  await page.context().close();
});

test("a steaming that was begun without the server is sent with the particulars that it has by then", async () => {
  const page = await phone();
  await page.goto(`${server.address}/#/footplate`);
  await page.getByRole("button", { name: /^Begin: / }).waitFor();
  await page.context().setOffline(true);
  const id = await tapBegin(page);
  await change(page, { Title: "Named late" });
  await said(page);
  await page.context().setOffline(false);
  await allSent(page);
  expect(await headAt(id)).toMatchObject({ id, title: "Named late" });
  await page.context().close();
});

test("what is given by half is asked for at once, and not refused hours later", async () => {
  const page = await phone();
  const id = await beginSteaming(page, server.address);
  await change(page, { Train: "", "Rolling resistance": "0.012" });
  await page.getByText("a figure, as something beside it is given").waitFor();
  await page.getByLabel(/^Train/).fill("4.2");
  await page.getByRole("button", { name: /^Keep the change/ }).click();
  await said(page);
  await allSent(page);
  expect(await headAt(id)).toMatchObject({ train: { massKg: 4.2, resistanceRatio: 0.012 } });
  await page.context().close();
});

test("a change of a steaming that was taken out at the server is said to be refused, and holds up no other", async () => {
  const page = await phone();
  const gone = await beginSteaming(page, server.address);
  await allSent(page);
  await server.ask(`/api/steamings/${gone}`, "DELETE");
  await change(page, { Title: "Too late" });
  await page.getByText("The server refuses this steaming:").waitFor();
  const other = await beginSteaming(page, server.address);
  await allSent(page);
  expect(await headAt(other)).toMatchObject({ id: other });
  await page.context().close();
});
