import { expect } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Warning } from "../../../src/analysis/report-schema.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Warnings of one code that an invented log brings about. */
export function warned(
  code: string,
  entries: readonly Entry[],
  more: { engine?: Partial<Locomotive>; steaming?: Partial<Steaming> } = {},
): Warning[] {
  const steaming: Steaming = { ...smallSteaming(), ...more.steaming, entries: [...entries] };
  const { warnings } = analyse({ ...smallEngine(), ...more.engine }, steaming);
  for (const warning of warnings) expect(Object.keys(warning)).toEqual(["code", "text", "entries"]);
  return warnings.filter((warning) => warning.code === code);
}

/** Readings of the dial, `everyS` apart, named p1, p2 ... */
export const dial = (bars: readonly number[], everyS = 60, fromS = 0): Entry[] =>
  bars.map((barG, i) => ({ id: `p${i + 1}`, kind: "pressure", atS: fromS + i * everyS, barG }));

export const levels = (mms: readonly number[], everyS = 60, fromS = 0): Entry[] =>
  mms.map((mm, i) => ({ id: `l${i + 1}`, kind: "level", atS: fromS + i * everyS, mm }));

export const laps = (times: readonly number[]): Entry[] =>
  times.map((atS, i) => ({ id: `lap${i + 1}`, kind: "lap", atS, count: 1 }));
