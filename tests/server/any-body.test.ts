import fc from "fast-check";
import { expect, test } from "vitest";
import { engine, entries, logbook, steaming } from "./fixtures.ts";
import { steamedApp } from "./running-app.ts";

const seed = 20_260_314;
const json = fc.json({ maxDepth: 3 });

type Method = "POST" | "PUT";
const writes: [Method, string, unknown][] = [
  ["POST", "/api/locomotives", engine],
  ["PUT", "/api/locomotives/engine-1", engine],
  ["POST", "/api/steamings", steaming],
  ["PUT", "/api/steamings/steaming-1", steaming],
  ["PUT", "/api/steamings/steaming-1/entries/e05", entries[4]],
  ["POST", "/api/steamings/steaming-1/entries", entries],
  ["POST", "/api/steamings/steaming-1/traces", [{ n: "levelMm", v: 1 }]],
  ["POST", "/api/compare", { steamings: ["steaming-1", "steaming-2"], alignBy: "lit" }],
  ["POST", "/api/logbook", logbook],
];

/** A valid body with one of its parts, anywhere, replaced. */
function spoilt(whole: unknown, part: unknown, choice: number): unknown {
  if (whole === null || typeof whole !== "object") return part;
  const keys = Object.keys(whole);
  const key = keys[choice % (keys.length + 1)];
  if (key === undefined) return part;
  const inside = spoilt(Reflect.get(whole, key), part, Math.floor(choice / (keys.length + 1)));
  return Array.isArray(whole) ? whole.with(Number(key), inside) : { ...whole, [key]: inside };
}

test.each(writes)(
  "%s %s answers any body with a result or a refusal, never a failure",
  async (method, url, valid) => {
    const { ask } = await steamedApp();
    const type = url.endsWith("/traces") ? "application/senml+json" : "application/json";
    const check = async (body: string) => {
      const answer = await ask(method, url, body, { "content-type": type });
      expect(answer.status).toBeLessThan(500);
      if (answer.status < 400) return;
      expect(answer.body).toMatchObject({
        code: expect.stringMatching(/./),
        message: expect.stringMatching(/./),
      });
      expect(answer.text).not.toMatch(/node_modules|\.ts:\d/);
    };
    await fc.assert(fc.asyncProperty(json, check), { seed, numRuns: 60 });
    const anyValue = fc.jsonValue({ maxDepth: 1 });
    await fc.assert(
      fc.asyncProperty(anyValue, fc.nat(), (part, choice) =>
        check(JSON.stringify(spoilt(valid, part, choice))),
      ),
      { seed, numRuns: 120 },
    );
  },
);
