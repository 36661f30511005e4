import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { saturationPressurePa } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** 140 °C boils at 0.36154 MPa (IAPWS R7-97), 2.602 bar above an atmosphere of 1.01325. */
const PEAK_BAR = 2.602;
const AIR_C = 20;
const OUT_S = 600;
/** Came up to 140 °C at 600 s and stands ever less above the air, by like parts, a tenth in about ten minutes. */
const bar = (atS: number): number => {
  const celsius = AIR_C + 120 * Math.exp(-(atS - OUT_S) / 6000);
  return (saturationPressurePa(celsius + 273.15) - 101_325) / 1e5;
};
const at = (atS: number, barG = bar(atS)): Entry => ({ kind: "pressure", atS, barG });
const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
const glass = (atS: number): Entry => ({ kind: "level", atS, mm: 20 });
const coming = [at(0, 0), fire("lit", 1), fire("out", OUT_S)];
const cooling = [720, 840, 960, 1080, 1200].map((atS) => at(atS));
const engine = { ...smallEngine(), instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.05 } };
const steaming = (entries: Entry[]) => ({
  ...smallSteaming(),
  purpose: "hot-hold" as const,
  conditions: { ambientC: AIR_C, feedC: AIR_C, atmosphereHPa: 1013.25 },
  entries: [...entries].sort((a, b) => a.atS - b.atS),
});
const course = (entries: Entry[]) => sourcesOf(engine, steaming(entries)).pressure;

describe("a dial first read when the fire was out", () => {
  test("she had come up to where her cooling leads back to, and not on until she was read", () => {
    const { cameDown, atS } = course([...coming, ...cooling]);
    expect(cameDown?.atS).toBe(OUT_S);
    expect(cameDown?.barG).toBeCloseTo(PEAK_BAR, 2);
    expect(atS(OUT_S)).toBeCloseTo(PEAK_BAR, 2);
    expect(atS(720)).toBe(bar(720));
    // readings of 0.02 bar are 0.2 K each at 2.3 bar: carried back two minutes no worse than one of them
    expect(cameDown?.uK).toBeGreaterThan(0.05);
    expect(cameDown?.uK).toBeLessThan(0.35);
  });

  test("one reading alone is carried back as boilers usually cool, in doubt by a third of the way", () => {
    const alone = course([...coming, at(900)]).cameDown;
    // 114.15 K above the air at 900 s, 3300 s of usual cooling: 125.0 K at 600 s
    expect(alone?.uK).toBeCloseTo(0.35 * 114.15 * (Math.exp(300 / 3300) - 1), 1);
    expect(alone?.barG).toBeGreaterThan(PEAK_BAR);
  });

  test("never above what a safety valve lets by", () => {
    const { workingPressureBarG } = smallEngine();
    expect(course([...coming, at(3000, 2.9)]).cameDown?.barG).toBeCloseTo(1.1 * workingPressureBarG, 6);
  });

  test.each<[string, Entry[]]>([
    ["read less than a minute before it went out", [...coming, at(541, 2.5), ...cooling]],
    ["read as high before", [...coming, at(400, 2.6), ...cooling]],
    [
      "she ran on",
      [...coming, { kind: "lap", count: 1, atS: 550 }, { kind: "lap", count: 1, atS: 650 }, ...cooling],
    ],
    ["fed before she was read", [...coming, { kind: "feed", by: "bottle", ml: 10, atS: 650 }, ...cooling]],
    ["nobody put it out", [...coming.slice(0, 2), ...cooling]],
    ["lit again before she was read", [...coming, fire("lit", 650), ...cooling]],
    ["no pressure was on when she was read", [...coming, at(900, 0)]],
    ["nothing was read before", [fire("lit", 1), fire("out", OUT_S), ...cooling]],
  ])("nothing is thought where %s", (_, entries) => {
    expect(course(entries).cameDown).toBeNull();
  });

  test("power, first steam and efficiency are as if the dial had been read when the fire went out", () => {
    const fuel: Entry[] = [
      { kind: "fuel", atS: 0, action: "added", g: 30 },
      { kind: "fuel", atS: 1200, action: "remaining", g: 10 },
    ];
    const worked = (entries: Entry[]) => {
      const { raising, heat } = analyse(engine, steaming([...entries, ...fuel, glass(2), glass(1190)]));
      const [power, efficiency] = [raising?.power, heat?.efficiency];
      if (power === undefined || !isMeasured(power) || efficiency === undefined || !isMeasured(efficiency))
        throw new Error(JSON.stringify([power, efficiency]));
      return { raising, power, efficiency };
    };
    const read = worked([...coming, at(OUT_S, PEAK_BAR), ...cooling]);
    const unread = worked([...coming, ...cooling]);
    expect(unread.raising?.window).toEqual([1, OUT_S]);
    expect(unread.power.value / read.power.value).toBeCloseTo(1, 2);
    expect(unread.efficiency.value / read.efficiency.value).toBeCloseTo(1, 2);
    expect(unread.raising?.toFirstSteamS).toBeCloseTo(read.raising?.toFirstSteamS ?? 0, 0);
    const part = unread.power.parts.find(({ name }) => name === "pressure at the end, not read");
    expect(part?.u).toBeGreaterThan(0);
    expect(read.power.parts.map(({ name }) => name)).not.toContain("pressure at the end, not read");
  });
});

test("what another fire raised, lit when the first was long out, is not the first one's power, and that is said", () => {
  const entries = [
    ...[at(0, 0), fire("lit", 1), at(240, 0.6), at(300, 1.5), at(330, 2), fire("out", 335)],
    ...[
      at(600, 1.4),
      at(1800, 0.1),
      at(2400, 0),
      fire("lit", 2401),
      at(2500, 0.5),
      at(2600, 2),
      at(2700, 3.1),
    ],
    ...[glass(0), glass(600), glass(2700)],
  ];
  const { raising, warnings } = analyse(engine, { ...steaming(entries), purpose: "standing" });
  expect(raising?.window).toEqual([1, 330]);
  expect(raising?.toWorkingPressureS).toBeNull();
  expect(warnings.find(({ code }) => code === "raised-below-working-pressure")?.text).toContain("2.00 bar");
  // out for a minute it is the same fire
  const soon = entries.map((entry) =>
    entry.kind === "fire" && entry.atS === 2401 ? { ...entry, atS: 400 } : entry,
  );
  const once = analyse(engine, { ...steaming(soon), purpose: "standing" });
  expect(once.raising?.toWorkingPressureS).toBeGreaterThan(2600);
});
