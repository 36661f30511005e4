import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { saturationPressurePa } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = { ...smallEngine(), instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.05 } };
const steaming = (entries: Entry[], purpose: "trial" | "hot-hold" = "trial") => ({
  ...smallSteaming(),
  purpose,
  conditions: { ambientC: 15, feedC: 15 },
  entries: [...entries].sort((a, b) => a.atS - b.atS),
});
const lit: Entry = { id: "lit", kind: "fire", atS: 100, state: "lit" };
const bar = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
const boilerAt = (atS: number, celsius: number): Entry => ({
  kind: "temperature",
  of: "boiler",
  atS,
  celsius,
});
/** the gauge at a boiler temperature, by the program's own saturation line (IAPWS R7-97, checked elsewhere) */
const gaugeAt = (celsius: number) => (saturationPressurePa(celsius + 273.15) - 101_325) / 1e5;
/** a boiler that warms evenly, `perS` a second, and stands at 110 °C at 400 s; and its glass */
const rising = (perS: number, ...atS: number[]): Entry[] =>
  atS.map((s) => bar(s, gaugeAt(110 + perS * (s - 400))));
const glass: Entry[] = [
  { kind: "level", atS: 95, mm: 20 },
  { kind: "level", atS: 650, mm: 20 },
  { kind: "level", atS: 900, mm: 19 },
];
const worked = (...entries: Entry[]) => {
  const analysis = analyse(engine, steaming([lit, ...glass, ...entries]));
  const said = analysis.warnings.filter(({ code }) =>
    ["taken-as-cold", "lit-warm", "lit-in-steam"].includes(code),
  );
  const power = analysis.raising?.power;
  return { ...analysis, said, power: power !== undefined && isMeasured(power) ? power : undefined };
};
const celsiusAt = (atS: number, ...entries: Entry[]) =>
  sourcesOf(engine, steaming([lit, ...entries])).stateAt(atS).temperatureK - 273.15;

describe("lit before any pressure was read", () => {
  // from 15 °C at 100 s to 110 °C at 400 s is 0.32 K a second, and so it goes on
  const cold = rising(0.3, 400, 440);

  test("she is taken as cold, and that is said", () => {
    const { said, sources } = worked(...cold);
    expect(said.map(({ code, entries }) => [code, entries])).toEqual([["taken-as-cold", ["lit"]]]);
    expect(said[0]?.text).toContain("cold when the fire was lit, which makes power and efficiency too high");
    expect(said[0]?.text).toContain("No pressure was read until 6:40: the boiler is taken to have been cold");
    expect(sources.stateAt(100).temperatureK - 273.15).toBeCloseTo(15, 6);
    expect(sources.pressure.beginsThought).toBe(true);
  });

  test("nothing need be said where the dial or the boiler's thermometer was read", () => {
    expect(worked(bar(90, 0), ...cold).said).toEqual([]);
    expect(worked(boilerAt(60, 15), ...cold).said).toEqual([]);
    // as soon as this, the first reading stands for the lighting
    expect(worked(bar(150, 1), bar(400, 2)).said).toEqual([]);
    expect(worked(bar(160, 1), bar(400, 2)).said).toHaveLength(1);
  });

  test("nor where the thermometer was read just after the match, and she is lit as warm as that", () => {
    const { said, sources } = worked(boilerAt(103, 18), ...cold);
    expect(said).toEqual([]);
    expect(sources.stateAt(100).temperatureK - 273.15).toBeCloseTo(18, 6);
    expect(worked(boilerAt(115, 18), ...cold).said).toEqual([]);
    expect(worked(boilerAt(116, 18), ...cold).said).toHaveLength(1);
    // what was read before tells it better
    expect(celsiusAt(100, boilerAt(60, 15), boilerAt(103, 18), ...cold)).toBeCloseTo(15, 6);
    expect(celsiusAt(100, boilerAt(110, 18), bar(100, 0), ...cold)).toBeCloseTo(18, 6);
  });

  // 0.02 K a second: 6 K in the 300 s, at most 18 at three times the pace
  test("a rise too slow to have come from cold says that she was warm, and how warm", () => {
    const { said, sources, power } = worked(...rising(0.02, 400, 640, 1000));
    expect(said.map(({ code }) => code)).toEqual(["lit-warm"]);
    // 110 °C less 1.3 times 6 K, +/- half of it
    expect(said[0]?.text).toContain("at 102 °C, give or take");
    expect(sources.stateAt(100).temperatureK - 273.15).toBeCloseTo(110 - 1.3 * 6, 1);
    expect(sources.stateAt(100).uTemperatureK).toBeGreaterThan(3);
    expect(sources.pressure.atS(100)).toBeCloseTo(gaugeAt(102.2), 2);
    expect(power?.value).toBeGreaterThan(0);
    expect(power?.value).toBeLessThan(40);
  });

  test("but no pace makes the water warm that she was just filled with: it was drawn upon, or the fire eased", () => {
    const slow = [bar(200, 0), ...rising(0.02, 400, 640, 1000)];
    const fill = (atS: number): Entry => ({ kind: "fill", atS, ml: 150 });
    expect(celsiusAt(100, fill(0), ...slow)).toBeCloseTo(15, 6);
    expect(worked(fill(0), ...slow).said).toEqual([]);
    // what was there before may have been warm
    const before: Entry = { kind: "level", atS: -20, mm: 10 };
    expect(worked(before, fill(0), ...slow).said[0]?.code).toBe("lit-warm");
    expect(worked(fill(-1701), ...slow).said[0]?.code).toBe("lit-warm");
  });

  test("warm and below boiling she has no pressure, but her warmth", () => {
    // 0.06 K a second: 110 less 1.3 x 18 K is 86.6 °C, three times 18 K still 56 °C
    const { said, sources } = worked(...rising(0.06, 400, 600));
    // half of 18 K either way, twice over
    expect(said[0]?.text).toContain("at 87 °C, give or take 18");
    expect(sources.stateAt(100).temperatureK - 273.15).toBeCloseTo(86.6, 1);
    expect(sources.stateAt(100).steam).toBeNull();
    expect(sources.pressure.atS(100)).toBe(0);
    // half way to boiling at first steam, half way up from there and a quarter of 0.3/1.3 of it more, for her pace falls
    const steamS = sources.pressure.firstSteamS ?? Number.NaN;
    expect(sources.stateAt((100 + steamS) / 2).temperatureK - 273.15).toBeCloseTo(
      86.6 + (99.97 - 86.6) * (1 / 2 + 0.3 / 1.3 / 4),
      1,
    );
  });

  test("three times the pace from cold is still cold", () => {
    expect(worked(...rising(0.11, 400, 600)).said[0]?.code).toBe("taken-as-cold");
    expect(worked(...rising(0.085, 400, 600)).said[0]?.code).toBe("lit-warm");
  });

  test("a pace slower than the way from none to the first steam is that of an eased fire", () => {
    // a dial on its pin stands for up to 0.16 bar, 104 °C: 5 K or more in 40 s, three times over 115 K in the 300 s since lighting
    expect(worked(bar(360, 0), ...rising(0.02, 400, 640)).said).toEqual([]);
    // 5 K in 180 s may be no faster than it goes on
    expect(worked(bar(220, 0), ...rising(0.02, 400, 640)).said[0]?.code).toBe("lit-warm");
  });

  test("a dial that rested at none when she was lit may stand on warm water", () => {
    const { said, sources } = worked(bar(100, 0), ...rising(0.02, 400, 640, 1000));
    expect(said.map(({ code }) => code)).toEqual(["lit-warm"]);
    // no warmer than boiling
    expect(sources.stateAt(100).temperatureK - 273.15).toBeCloseTo(99.97, 1);
    expect(sources.stateAt(100).steam).toBeNull();
  });

  test("a rise that a valve, the blower or steam being used slowed tells no pace", () => {
    const slow = rising(0.02, 400, 640, 1000);
    const at: Entry[] = [
      { kind: "blower", atS: 300, state: "off" },
      { kind: "feed", atS: 300, ml: 20, by: "bottle" },
      { kind: "regulator", atS: 300, state: "open" },
    ];
    for (const one of at) expect(worked(one, ...slow).said[0]?.code).toBe("taken-as-cold");
    for (const name of ["standing", "running"] as const)
      expect(worked({ kind: "phase", atS: 410, name }, ...slow).said[0]?.code).toBe("taken-as-cold");
    const raising: Entry = { kind: "phase", atS: 410, name: "raising" };
    expect(worked(raising, ...slow).said[0]?.code).toBe("lit-warm");
    // laps of 300 s: the first, written down when it was run, began at 450 s
    const lap = (atS: number): Entry => ({ kind: "lap", atS, count: 1 });
    expect(worked(lap(750), lap(1050), ...slow).said[0]?.code).toBe("taken-as-cold");
    expect(worked(lap(1050), lap(1350), ...slow).said[0]?.code).toBe("lit-warm");
    // 2.7 bar is nine tenths of working pressure: beyond it the fire is eased
    const near = [bar(400, 2.75), bar(700, 2.85), bar(1000, 2.95)];
    expect(worked(...near).said[0]?.code).toBe("taken-as-cold");
    // nor does a rise within the errors of the dial
    expect(worked(bar(400, 1), bar(900, 1.02)).said[0]?.code).toBe("taken-as-cold");
  });
});

describe("lit with a boiler thermometer read before", () => {
  const rise = rising(0.1, 400, 500, 600);

  test("water of 98 °C has no pressure yet, and raising has a power", () => {
    const { said, power, sources } = worked(boilerAt(60, 98), ...rise);
    expect(said).toEqual([]);
    expect(sources.pressure.atS(100)).toBe(0);
    expect(sources.stateAt(100).temperatureK - 273.15).toBeCloseTo(98, 6);
    expect(power?.value).toBeGreaterThan(0);
  });

  test("of 120 °C it stands at the pressure that goes with it, whatever was read first", () => {
    const { said, power, raising, sources } = worked(boilerAt(60, 120), bar(700, 3));
    expect(said).toEqual([]);
    expect(sources.pressure.atS(100)).toBeCloseTo(gaugeAt(120), 9);
    // 3 bar: 143.6 °C (Spirax Sarco TI-GCM-01 issue 6): 23.6 K in 600 s
    expect(raising?.window?.[0]).toBe(100);
    expect(power?.value).toBeGreaterThan(10);
    expect(power?.value).toBeLessThan(60);
  });

  test("five minutes before it speaks, six it does not", () => {
    const early = { ...lit, atS: 400 };
    const of = (readS: number) => sourcesOf(engine, steaming([boilerAt(readS, 98), early, bar(700, 2)]));
    expect(of(100).pressure.atS(400)).toBe(0);
    expect(of(40).pressure.atS(400)).toBe(2);
    expect(of(40).lighting.said).toBe("as first read");
  });

  test("long before, it speaks of steam if she was above boiling", () => {
    const later = { ...lit, atS: 500 };
    const said = (reading: Entry) => sourcesOf(engine, steaming([reading, later, bar(700, 2)])).lighting.said;
    expect(said(boilerAt(100, 120))).toBe("as first read");
    expect(said(boilerAt(100, 60))).toBe("cold");
    expect(said(boilerAt(560, 120))).toBe("cold");
  });

  test("says nothing against a dial that stood at steam", () => {
    const { pressure, lighting } = sourcesOf(engine, steaming([bar(30, 1), boilerAt(60, 110), lit, ...rise]));
    expect(lighting.thought).toBeNull();
    expect(pressure.atS(30)).toBe(1);
  });
});

describe("lit with something in the log that speaks of steam", () => {
  test.each<[string, Entry]>([
    ["the valve lifted", { kind: "valve", atS: 150, state: "lifts" }],
    ["she ran", { kind: "lap", atS: 150, count: 1 }],
    ["the regulator was opened", { kind: "regulator", atS: 150, state: "open" }],
    ["standing was marked", { kind: "phase", atS: 100, name: "standing" }],
    ["the fire went out before the pressure was read", { kind: "fire", atS: 300, state: "out" }],
  ])("%s: what was read first is taken for the lighting, and that is said", (_, entry) => {
    const { said, sources } = worked(entry, bar(400, 2));
    expect(said.map(({ code }) => code)).toEqual(["lit-in-steam"]);
    expect(said[0]?.text).toContain("300 s after the fire was lit");
    expect(said[0]?.text).toContain("2.0 bar is taken to have stood");
    expect(sources.pressure.atS(100)).toBe(2);
  });

  test.each<[string, Entry]>([
    ["the valve lifted two minutes later", { kind: "valve", atS: 220, state: "lifts" }],
    ["the regulator was shut", { kind: "regulator", atS: 150, state: "shut" }],
    ["raising was marked", { kind: "phase", atS: 100, name: "raising" }],
    ["something was noted", { kind: "note", atS: 120, text: "a good flame" }],
  ])("%s: that speaks of nothing", (_, entry) => {
    expect(worked(entry, bar(400, 2)).said.map(({ code }) => code)).toEqual(["taken-as-cold"]);
  });

  test("a fire put out after the pressure was read speaks of nothing, nor does a run before the lighting of its rise", () => {
    const out: Entry = { kind: "fire", atS: 900, state: "out" };
    expect(worked(bar(400, 2), out).said.map(({ code }) => code)).toEqual(["taken-as-cold"]);
    const ran: Entry[] = [
      { kind: "regulator", atS: 20, state: "open" },
      { kind: "regulator", atS: 60, state: "shut" },
    ];
    const slow = rising(0.02, 400, 620, 800);
    expect(worked(...ran, bar(90, 0), ...slow).said.map(({ code }) => code)).toEqual(["lit-warm"]);
  });

  test("a hot hold whose fire is written down began as any other did; without a fire it began in steam", () => {
    const held = (...entries: Entry[]) => sourcesOf(engine, steaming([...glass, ...entries], "hot-hold"));
    expect(held(lit, bar(400, 2)).lighting.said).toBe("cold");
    expect(held(bar(400, 2)).lighting.said).toBeNull();
    expect(held(bar(400, 2)).pressure.atS(100)).toBe(2);
  });
});

test("the warmth at lighting that is only guessed is in the doubt of the power", () => {
  const slow = rising(0.06, 400, 600, 800);
  const [guessed, read] = [worked(...slow).power, worked(boilerAt(60, 86.6), ...slow).power];
  if (guessed === undefined || read === undefined) throw new Error("no power");
  expect(guessed.value).toBeCloseTo(read.value, 0);
  expect(standardUncertainty(guessed)).toBeGreaterThan(1.5 * standardUncertainty(read));
});

test("at working pressure when the fire was lit there is nothing to raise", () => {
  const { raising } = worked(bar(100, 3), bar(700, 3.05));
  expect(raising?.power).toEqual({
    value: null,
    why: "the boiler was at working pressure when the fire was lit",
  });
  expect(celsiusAt(100, bar(100, 3))).toBeGreaterThan(143);
});

describe("what is looked at to tell how warm she was lit", () => {
  const slow = rising(0.02, 400, 620, 800);
  const saidOf = (...entries: Entry[]) => worked(...entries).said.map(({ code }) => code);

  test("only the boiler's own thermometer, and only before the fire", () => {
    const other: Entry = { kind: "temperature", of: "feed", atS: 60, celsius: 15 };
    expect(saidOf(other, ...slow)).toEqual(["lit-warm"]);
    expect(saidOf(boilerAt(150, 90), ...slow)).toEqual(["lit-warm"]);
    expect(saidOf(boilerAt(100, 90), ...slow)).toEqual([]);
    expect(saidOf(boilerAt(100, 90), bar(90, 0), ...slow)).toEqual([]);
    const flue: Entry = { kind: "temperature", of: "flue", atS: 90, celsius: 300 };
    expect(saidOf({ ...flue, atS: 0 }, ...rising(0.3, 400, 440))).toEqual(["taken-as-cold"]);
  });

  test("a fire that was put out before it was lit is no lighting; no pressure read, nothing said", () => {
    const before: Entry = { kind: "fire", atS: 0, state: "out" };
    expect(worked(before, bar(90, 0), ...slow).said[0]?.entries).toEqual(["lit"]);
    expect(analyse(engine, steaming([lit, ...glass])).sources.lighting.said).toBeNull();
  });

  test("a dial that stood at steam when she was lit was read: nothing is thought", () => {
    expect(worked(bar(90, 1), ...slow).sources.lighting).toEqual({ thought: null, warm: null, said: null });
    // a pointer on its pin shows no pressure
    expect(saidOf(bar(90, 0.05), ...slow)).toEqual(["lit-warm"]);
    expect(saidOf(bar(90, 0.06), ...slow)).toEqual([]);
  });

  test("a first reading of none after the lighting is one of the lighting's", () => {
    const { sources } = worked(bar(200, 0), ...slow);
    expect(sources.lighting.thought).toBeNull();
    expect(sources.lighting.said).toBe("warm");
  });

  // 0.02 and 0.05 bar, three times together: 0.16 bar and below may be none
  test("the rise is told from the last reading that may be none", () => {
    expect(saidOf(bar(90, 0), bar(200, 0.15), ...rising(0.2, 400, 440))).toEqual([]);
    // first of the rise at 300 s already: from there 0.02 K a second to 500 s
    const earlier = [bar(300, gaugeAt(106)), bar(500, gaugeAt(110)), bar(600, gaugeAt(112))];
    expect(saidOf(...earlier)).toEqual(["lit-warm"]);
    expect(saidOf(...earlier, bar(450, 0.1))).toEqual(["taken-as-cold"]);
  });

  test("a pace needs four kelvins, twenty seconds, and no more than four minutes", () => {
    expect(saidOf(...rising(0.02, 400, 595))).toEqual(["taken-as-cold"]);
    expect(saidOf(...rising(0.02, 400, 605))).toEqual(["lit-warm"]);
    expect(saidOf(...rising(0.018, 400, 640))).toEqual(["lit-warm"]);
    expect(saidOf(...rising(0.018, 400, 641))).toEqual(["taken-as-cold"]);
    // 5 K within 10 s is no pace: that of 100 s is, and it is slow
    expect(saidOf(...rising(0.05, 400, 500), bar(410, gaugeAt(115)))).toEqual(["lit-warm"]);
  });

  // a dial good to 0.1 bar: 4 K at 110 °C is 0.2 bar; root 2 times 1.9 K, twice that 5.4 K
  test("a poor dial needs more", () => {
    const of = (riseK: number) =>
      analyse(
        { ...smallEngine(), instruments: { pressureReadingBar: 0.1, pressureBiasBar: 0.05 } },
        steaming([lit, ...glass, bar(200, gaugeAt(110)), bar(400, gaugeAt(110 + riseK))]),
      ).sources.lighting.said;
    expect(of(4.5)).toBe("cold");
    expect(of(6.5)).toBe("warm");
  });

  // 12 K in 170 s are 21 K in the 300 s before, 110 less three times that 47 °C; if 5.4 K more, 31 K and 18 °C
  test("a poor dial may have shown too small a rise: warm is only who would be so by the largest", () => {
    const by = (pressureReadingBar: number) =>
      analyse(
        { ...smallEngine(), instruments: { pressureReadingBar, pressureBiasBar: 0.05 } },
        steaming([lit, ...glass, bar(400, gaugeAt(110)), bar(570, gaugeAt(122))]),
      ).sources.lighting.said;
    expect(by(0.02)).toBe("warm");
    expect(by(0.1)).toBe("cold");
  });

  test("air and feed that differ: cold is half way between them", () => {
    const said = (ambientC: number, feedC: number) =>
      analyse(engine, {
        ...steaming([lit, ...glass, ...rising(0.095, 400, 600)]),
        conditions: { ambientC, feedC },
      }).sources.lighting.said;
    // 110 less three times 28.5 K, and the dial's own 0.5 K a step: 22 °C; warm is ten above cold
    expect(said(5, 5)).toBe("warm");
    expect(said(5, 35)).toBe("cold");
    expect(said(35, 5)).toBe("cold");
  });

  test("what is above nine tenths of working pressure ends it, though it sank again", () => {
    const eased = [bar(400, 2.1), bar(410, 2.75), bar(600, 2.6)];
    expect(saidOf(...eased)).toEqual(["taken-as-cold"]);
    expect(saidOf(bar(400, 2.1), bar(600, 2.6))).toEqual(["lit-warm"]);
  });

  test("readings before the lighting are none of the rise", () => {
    const relit = { ...lit, atS: 350 };
    const { sources } = analyse(engine, steaming([relit, bar(100, 0), ...glass, ...slow]));
    expect(sources.lighting.warm?.kelvin).toBeCloseTo(100 - 0.03 + 273.15, 1);
  });
});

describe("no fire was written down", () => {
  // the log begins with the glass, at 95 s: from 15 °C it is 305 s to 110 °C at 400 s, or 95 K
  const read = (...entries: Entry[]) => {
    const { sources, warnings } = analyse(engine, steaming([...glass, ...entries]));
    return { ...sources.lighting, warning: warnings.find(({ code }) => code === "taken-as-cold") };
  };
  const nothing = { thought: null, warm: null, said: null, warning: undefined };

  test("a rise that at its pace, 1.3 times as fast before the first steam, began with cold water began cold, and that is said", () => {
    // 95 K in 305 s at 1.3 times the pace is 0.24 K a second; with the 10 K of warmth that are still cold, 0.215
    const cold = read(...rising(0.25, 400, 440));
    expect(cold.thought).toEqual([95, 0]);
    expect(cold.warning?.text).toContain("cold when the log begins, by the pace of the rise");
    expect(cold.warning?.entries).toEqual([]);
    expect(read(...rising(0.2, 400, 440))).toEqual(nothing);
  });

  test("without a pace or with steam spoken of she is as first read", () => {
    const rise = rising(0.3, 400, 440);
    expect(read(bar(400, 2))).toEqual(nothing);
    expect(read(...rise).said).toBe("cold");
    expect(read({ kind: "note", atS: 345, text: "late" }, ...rise).said).toBe("cold");
    expect(read({ kind: "valve", atS: 120, state: "lifts" }, ...rise)).toEqual(nothing);
    expect(read({ kind: "fire", atS: 120, state: "out" }, ...rise)).toEqual(nothing);
    expect(read({ kind: "phase", atS: 90, name: "standing" }, ...rise)).toEqual(nothing);
    expect(read({ kind: "valve", atS: 90, state: "lifts" }, ...rise)).toEqual(nothing);
    // a thermometer on the way up says no other
    expect(read(boilerAt(200, 40), ...rise).said).toBe("cold");
    expect(read(boilerAt(390, 108), ...rise).said).toBe("cold");
  });
});
