import { sourcesOf } from "../../../src/analysis/sources.ts";
import { waterOf } from "../../../src/analysis/water/water.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Entries in few words, and a run to try what is made of them. */
export const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
export const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
export const phase = (name: "raising" | "standing" | "running" | "shut-in", atS: number): Entry => ({
  kind: "phase",
  name,
  atS,
});
export const bypass = (state: "open" | "shut", atS: number): Entry => ({ kind: "bypass", state, atS });
export const regulator = (state: "open" | "shut", atS: number): Entry => ({ kind: "regulator", state, atS });
export const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
export const turns = (count: number, atS: number): Entry => ({ kind: "revolutions", count, atS });

export const sources = (entries: Entry[], of: Locomotive = smallEngine(), head: Partial<Steaming> = {}) =>
  sourcesOf(of, { ...smallSteaming(), ...head, entries });
export const waterWith = (...given: Parameters<typeof sources>) => waterOf(sources(...given));
export const run: Entry[] = [
  bar(3, 0),
  level(20, 0),
  phase("standing", 0),
  phase("running", 300),
  phase("standing", 900),
  bar(3, 1200),
  level(12, 1200),
];
