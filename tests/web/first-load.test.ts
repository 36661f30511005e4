import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";

const built = new URL("../../web/dist/", import.meta.url);
const page = readFileSync(new URL("index.html", built), "utf8");
const firstScripts = [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.js)"/g)].map((match) =>
  readFileSync(new URL(match[1] ?? "", built)),
);

test("the scripts of the first load are under 100 kB, gzipped", () => {
  expect(firstScripts.length).toBeGreaterThan(0);
  const bytes = firstScripts.reduce((sum, script) => sum + gzipSync(script).length, 0);
  expect(bytes).toBeLessThan(100_000);
});

test("the Footplate is whole in the first load, in 70 kB of script, gzipped", () => {
  const bytes = firstScripts.reduce((sum, script) => sum + gzipSync(script).length, 0);
  expect(bytes).toBeLessThan(70_000);
  const first = firstScripts.map(String).join("\n");
  for (const words of ["Look at the glass", "kept here, not sent", "Which fitting?", "top nut"]) {
    expect(first).toContain(words);
  }
});

test("the drawing library comes only with the first chart, and the schemas do not come at all", () => {
  const first = firstScripts.map(String).join("\n");
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
