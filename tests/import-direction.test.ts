import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, test } from "vitest";

const top = resolve(import.meta.dirname, "..");

/** Rooms of src from the ground up: a room stands only on rooms of a lower floor, or on itself. */
const FLOOR: Record<string, number> = {
  statistics: 0,
  quantity: 1,
  steam: 2,
  boiler: 3,
  logbook: 3,
  analysis: 4,
  care: 5,
  compare: 5,
  sizing: 5,
};

interface Import {
  from: string;
  to: string;
}

function sourcesBelow(folder: string): string[] {
  return readdirSync(join(top, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !/(^|\/)dist\//.test(name))
    .map((name) => join(folder, name));
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(top, file), "utf8");
  return [...text.matchAll(/(?:from\s+|import\s*\(?\s*)["']([^"']+)["']/g)].map((match) => match[1] ?? "");
}

const all: Import[] = ["src", "server", "web", "sample-data"].flatMap((folder) =>
  sourcesBelow(folder).flatMap((file) =>
    importsOf(file).map((target) => ({
      from: file,
      to: target.startsWith(".") ? relative(top, resolve(top, dirname(file), target)) : target,
    })),
  ),
);

const roomOf = (file: string) => file.split("/")[1] ?? "";
const houseOf = (file: string) => file.split("/")[0] ?? "";
const written = (imports: readonly Import[]) => imports.map(({ from, to }) => `${from} -> ${to}`);

describe("imports go one way", () => {
  test("there are imports to look at", () => {
    expect(all.length).toBeGreaterThan(100);
  });

  test("src imports neither server nor web nor anything of Node", () => {
    const bad = all.filter(
      ({ from, to }) =>
        houseOf(from) === "src" &&
        (["server", "web", "tests", "sample-data"].includes(houseOf(to)) || to.startsWith("node:")),
    );
    expect(written(bad)).toEqual([]);
  });

  test("server and web do not import one another, nor tests", () => {
    const bad = all.filter(
      ({ from, to }) =>
        (houseOf(from) === "server" && ["web", "tests"].includes(houseOf(to))) ||
        (houseOf(from) === "web" && ["server", "tests"].includes(houseOf(to))),
    );
    expect(written(bad)).toEqual([]);
  });

  test("every room of src has a floor, and stands on lower floors only", () => {
    const inside = all.filter(({ from, to }) => houseOf(from) === "src" && houseOf(to) === "src");
    const rooms = new Set(inside.flatMap(({ from, to }) => [roomOf(from), roomOf(to)]));
    expect([...rooms].filter((room) => FLOOR[room] === undefined)).toEqual([]);
    const bad = inside.filter(
      ({ from, to }) => roomOf(from) !== roomOf(to) && (FLOOR[roomOf(to)] ?? 0) >= (FLOOR[roomOf(from)] ?? 0),
    );
    expect(written(bad)).toEqual([]);
  });

  test("no file stands upon itself, over however many others, not even by a type", () => {
    const targets = new Map<string, string[]>();
    for (const { from, to } of all) targets.set(from, [...(targets.get(from) ?? []), to]);
    const settled = new Set<string>();
    const circleFrom = (file: string, way: readonly string[]): string[] | null => {
      if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
      if (settled.has(file)) return null;
      for (const next of targets.get(file) ?? []) {
        const circle = circleFrom(next, [...way, file]);
        if (circle !== null) return circle;
      }
      settled.add(file);
      return null;
    };
    const circles = [...targets.keys()].map((file) => circleFrom(file, []));
    expect(circles.find((circle) => circle !== null)?.join(" -> ")).toBeUndefined();
  });
});
