import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { emptyFolder, runningApp } from "./running-app.ts";

function builtPages(): string {
  const folder = emptyFolder();
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>Lapwater</title>");
  writeFileSync(join(folder, "assets", "main-abc123.js"), "export {};");
  return folder;
}

test("the first page is served at the root and at every page's address, and asked for anew each time", async () => {
  const { ask } = await runningApp({}, { pages: builtPages() });
  for (const url of ["/", "/shed", "/sheet/some-id?print=1"]) {
    const page = await ask("GET", url);
    expect([url, page.status, page.headers["content-type"]]).toEqual([url, 200, "text/html; charset=utf-8"]);
    expect(page.text).toContain("<title>Lapwater</title>");
    expect(page.headers["cache-control"]).toBe("no-cache");
  }
});

test("files whose name holds their content's mark may be kept for good", async () => {
  const { ask } = await runningApp({}, { pages: builtPages() });
  const script = await ask("GET", "/assets/main-abc123.js");
  expect(script.status).toBe(200);
  expect(script.headers["content-type"]).toContain("javascript");
  expect(script.headers["cache-control"]).toBe("public, max-age=31536000, immutable");
});

test("a missing file or interface address is not answered with the first page", async () => {
  const { ask } = await runningApp({}, { pages: builtPages() });
  for (const url of ["/assets/gone.js", "/api/gone", "/api"]) {
    const answer = await ask("GET", url);
    expect([url, answer.status]).toEqual([url, 404]);
    expect(answer.body).toMatchObject({ code: "no-such-address" });
  }
  expect((await ask("POST", "/shed", {})).status).toBe(404);
});

test("nothing outside the pages' folder is served", async () => {
  const pages = builtPages();
  writeFileSync(join(pages, "..", "outside.txt"), "secret");
  const { ask } = await runningApp({}, { pages });
  for (const url of ["/../outside.txt", "/%2e%2e/outside.txt", "/..%2foutside.txt"]) {
    expect((await ask("GET", url)).text).not.toContain("secret");
  }
});

test("the pages are served to a phone that is not paired yet, so that it can be", async () => {
  const { app } = await runningApp({ lan: true }, { pages: builtPages() });
  for (const url of ["/", "/shed", "/assets/main-abc123.js"]) {
    const answer = await app.inject({ url, remoteAddress: "192.0.2.40" });
    expect([url, answer.statusCode]).toEqual([url, 200]);
  }
  expect((await app.inject({ url: "/api/shed", remoteAddress: "192.0.2.40" })).statusCode).toBe(401);
});

test("what lies packed beside a script is sent to who can unpack it, and the script itself to who cannot", async () => {
  const pages = builtPages();
  writeFileSync(join(pages, "assets", "main-abc123.js.gz"), gzipSync("export {};"));
  const { app } = await runningApp({}, { pages });
  const url = "/assets/main-abc123.js";
  const packed = await app.inject({ url, headers: { "accept-encoding": "gzip, deflate" } });
  expect(packed.headers["content-encoding"]).toBe("gzip");
  expect(packed.headers["content-type"]).toContain("javascript");
  expect(packed.headers["cache-control"]).toBe("public, max-age=31536000, immutable");
  expect(gunzipSync(packed.rawPayload).toString()).toBe("export {};");
  const plain = await app.inject({ url });
  expect(plain.headers["content-encoding"]).toBeUndefined();
  expect(plain.payload).toBe("export {};");
});
