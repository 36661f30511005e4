import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { bytesSent, scriptsOfFirstVisit } from "../support/footplate-load.ts";
import { startServer } from "../support/server.ts";

const built = new URL("../../web/dist/", import.meta.url);
const page = readFileSync(new URL("index.html", built), "utf8");
const { browser, server } = await browserAndServer(startServer());
const visit = await scriptsOfFirstVisit(browser, server.address);

test("the Footplate is whole in one load, in 70 kB of script as it is sent, gzipped", () => {
  expect(visit.length).toBe(1);
  expect(bytesSent(visit)).toBeGreaterThan(50_000);
  expect(bytesSent(visit)).toBeLessThan(70_000);
  for (const words of ["Look at the glass", "kept here, not sent", "Which fitting?", "top nut"]) {
    expect(visit[0]?.text).toContain(words);
  }
});

test("the drawing library comes only with the first chart, and the schemas do not come at all", () => {
  const first = visit.map(({ text }) => text).join("\n");
  expect(first).not.toContain("registerables");
  expect(first).not.toContain("getPixelForDecimal");
  const all = readdirSync(new URL("assets/", built))
    .filter((name) => name.endsWith(".js"))
    .map((name) => readFileSync(new URL(`assets/${name}`, built), "utf8"))
    .join("\n");
  expect(all).toContain("getPixelForDecimal");
  expect(all).not.toMatch(/ZodError|\$ZodType/);
});

test("neither page nor style asks another machine", () => {
  const styles = readdirSync(new URL("assets/", built))
    .filter((name) => name.endsWith(".css"))
    .map((name) => readFileSync(new URL(`assets/${name}`, built), "utf8"));
  for (const text of [page, ...styles])
    expect(text).not.toMatch(/(?:src|href|url\()=?["'(]?(?:https?:)?\/\//);
});
