import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { demonstration } from "../../sample-data/demonstration/demonstration.ts";
import { example } from "../../sample-data/demonstration/example.ts";
import { printedLogbook, printedTruth } from "../../sample-data/demonstration/printed.ts";
import { readLogbook } from "../../src/logbook/read-logbook.ts";

const kept = (name: string) => readFileSync(new URL(`../../sample-data/${name}`, import.meta.url), "utf8");

describe("the demonstration", () => {
  const made = demonstration();

  it("is what the simulator makes of the season, to the last character", () => {
    expect(printedLogbook(made.logbook)).toBe(kept("demonstration.logbook.json"));
    expect(printedTruth(made)).toBe(kept("demonstration.truth.json"));
    expect(printedLogbook(example())).toBe(kept("example.logbook.json"));
  });

  it("reads as a logbook", () => {
    for (const name of ["demonstration.logbook.json", "example.logbook.json"]) {
      expect(readLogbook(kept(name))).toMatchObject({ ok: true });
    }
  });

  it("is small: below 400 kB, the example below 25 entries", () => {
    expect(kept("demonstration.logbook.json").length).toBeLessThan(400_000);
    expect(example().steamings[0]?.entries.length).toBeLessThan(25);
  });

  it("shows at least eight steamings, of every sort that a season has", () => {
    const { steamings, services } = made.logbook;
    expect(steamings.length).toBeGreaterThanOrEqual(8);
    expect(new Set(steamings.map((steaming) => steaming.purpose))).toEqual(
      new Set(["trial", "standing", "hot-hold", "cold-hold", "safety-valve"]),
    );
    expect(steamings.some((steaming) => steaming.traces !== undefined)).toBe(true);
    expect(steamings.some((steaming) => steaming.entries.every((entry) => entry.kind !== "level"))).toBe(
      true,
    );
    expect(services.some((service) => service.what === "repacked")).toBe(true);
  });

  it("lets the right gland grow until it is repacked, and start again", () => {
    const drips = made.logbook.steamings.flatMap((steaming) =>
      steaming.entries.flatMap((entry) =>
        entry.kind === "drip" && entry.fitting === "right-gland"
          ? [{ date: steaming.startedAt.slice(0, 10), g: entry.g }]
          : [],
      ),
    );
    const before = drips.filter(({ date }) => date < "2026-06-24");
    const after = drips.filter(({ date }) => date > "2026-06-24");
    expect(before.length).toBeGreaterThanOrEqual(4);
    expect(before.at(-1)?.g).toBeGreaterThan(5 * (before[0]?.g ?? 0));
    expect(after[0]?.g).toBeLessThan(0.3 * (before.at(-1)?.g ?? 0));
  });

  it("names no fitting that is not there", () => {
    const fittings = new Set(made.logbook.locomotives[0]?.fittings.map((fitting) => fitting.id));
    for (const truth of Object.values(made.truths)) {
      for (const leak of truth.leaks) expect(fittings).toContain(leak.fitting);
    }
    for (const service of made.logbook.services) expect(fittings).toContain(service.fittingId);
  });
});
