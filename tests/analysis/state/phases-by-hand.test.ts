import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import {
  common,
  fireStretches,
  lengthS,
  type Phase,
  runningStretches,
  type Stretch,
  underWayStretches,
  usualLapS,
  without,
} from "../../../src/analysis/state/phases.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { fire, regulator } from "../water/water-log.ts";

const timelineWith = (entries: Entry[]) => timelineOf({ ...smallSteaming(), entries });
/** Moments found on a line between readings are whole seconds here, but for the last digits of a float. */
const whole = (atS: number) => Number(atS.toFixed(9));
const phasesWith = (entries: Entry[], head: Partial<Steaming> = {}) =>
  sourcesOf(smallEngine(), { ...smallSteaming(), ...head, entries }).phases.map(
    ({ name, fromS, toS, inferred }) => `${name} ${whole(fromS)}-${whole(toS)}${inferred ? "" : " marked"}`,
  );

const lap = (atS: number, count = 1): Entry => ({ kind: "lap", count, atS });
const pressure = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const mark = (name: Phase["name"], atS: number): Entry => ({ kind: "phase", name, atS });

describe("stretches of time", () => {
  test("are as long as all of them together", () => {
    expect(
      lengthS([
        [0, 10],
        [20, 25],
      ]),
    ).toBe(15);
    expect(lengthS([])).toBe(0);
  });

  test("have in common what lies in both, and nothing where they only touch", () => {
    const two: Stretch[] = [
      [0, 10],
      [20, 30],
    ];
    expect(common(two, [[5, 25]])).toEqual([
      [5, 10],
      [20, 25],
    ]);
    expect(common(two, [[10, 20]])).toEqual([]);
    expect(common([[0, 100]], two)).toEqual(two);
  });

  test("without others are what is left before, between and after them", () => {
    expect(
      without(
        [[0, 100]],
        [
          [20, 30],
          [50, 60],
        ],
      ),
    ).toEqual([
      [0, 20],
      [30, 50],
      [60, 100],
    ]);
    expect(without([[10, 20]], [[0, 15]])).toEqual([[15, 20]]);
    expect(without([[10, 20]], [[15, 40]])).toEqual([[10, 15]]);
    expect(without([[10, 20]], [[10, 20]])).toEqual([]);
    for (const outside of [
      [0, 5],
      [0, 10],
      [20, 30],
      [25, 30],
    ] as const)
      expect(without([[10, 20]], [outside])).toEqual([[10, 20]]);
  });
});

describe("the usual lap", () => {
  test("is the median of seconds a lap, from the second entry on", () => {
    expect(usualLapS(timelineWith([lap(500), lap(560), lap(620), lap(820, 2)]))).toBe(60);
    expect(usualLapS(timelineWith([lap(500, 2), lap(620, 2), lap(740, 2)]))).toBe(60);
  });

  test("is not told by one entry, nor by entries of no lap", () => {
    expect(usualLapS(timelineWith([lap(500)]))).toBe(0);
    expect(usualLapS(timelineWith([lap(500), lap(560, 0)]))).toBe(0);
  });
});

describe("when she ran, by laps alone", () => {
  const fiveLaps = [100, 160, 220, 280, 340].map((atS) => lap(atS));

  test("from one usual lap before the first entry, for each lap that it counts", () => {
    expect(runningStretches(timelineWith(fiveLaps))).toEqual([[40, 340]]);
    expect(runningStretches(timelineWith([lap(400, 3), lap(460), lap(520)]))).toEqual([[220, 520]]);
  });

  // a usual lap of 60 s: five of them are 300 s
  test("more than five usual laps without one is a stop", () => {
    expect(runningStretches(timelineWith([...fiveLaps, lap(640)]))).toEqual([[40, 640]]);
    expect(runningStretches(timelineWith([...fiveLaps, lap(641), lap(701)]))).toEqual([
      [40, 340],
      [581, 701],
    ]);
  });

  test("for each lap that was counted at once", () => {
    expect(runningStretches(timelineWith([...fiveLaps, lap(940, 2)]))).toEqual([[40, 940]]);
    expect(runningStretches(timelineWith([...fiveLaps, lap(941, 2)]))).toEqual([
      [40, 340],
      [821, 941],
    ]);
  });

  test("no laps, or entries of none, tell no running", () => {
    expect(runningStretches(timelineWith([pressure(2, 0)]))).toEqual([]);
    expect(runningStretches(timelineWith([lap(60, 0), lap(120, 0)]))).toEqual([]);
    expect(runningStretches(timelineWith([]))).toEqual([]);
  });
});

describe("when she ran and was under way, by the regulator", () => {
  const regulated = timelineWith([
    regulator("open", 100),
    lap(150),
    regulator("shut", 200),
    regulator("open", 300),
    pressure(2, 400),
  ]);
  const open = [
    [100, 200],
    [300, 400],
  ];
  const running = (fromS: number, toS: number): Phase => ({ name: "running", fromS, toS, inferred: false });

  test("the regulator tells, and the laps do not", () => {
    expect(runningStretches(regulated)).toEqual(open);
  });

  test("under way is where a running phase has the regulator open", () => {
    expect(
      underWayStretches(regulated, [running(150, 350), { ...running(350, 400), name: "standing" }]),
    ).toEqual([
      [150, 200],
      [300, 350],
    ]);
  });

  test("without a running phase the regulator alone tells, and without a regulator the phase", () => {
    expect(underWayStretches(regulated, [])).toEqual(open);
    expect(underWayStretches(timelineWith([lap(150), lap(200)]), [running(0, 90)])).toEqual([[0, 90]]);
  });

  test("a fire that is not put out burns to the end of the log", () => {
    expect(fireStretches(timelineWith([fire("lit", 10), pressure(1, 400)]))).toEqual([[10, 400]]);
    expect(fireStretches(timelineWith([]))).toEqual([]);
  });
});

describe("phases inferred, by hand", () => {
  const raised = [fire("lit", 0), pressure(0, 0), pressure(3, 400)];

  test("before the fire is lit there is none, unless she ran on steam that was left", () => {
    const before = [fire("out", 0), regulator("open", 0), regulator("shut", 100)];
    const after = [fire("lit", 200), pressure(0, 200), pressure(3, 600)];
    expect(phasesWith([...before, ...after])).toEqual([
      "running 0-100",
      "raising 200-580",
      "standing 580-600",
    ]);
    const untilLit = [regulator("open", 0), regulator("shut", 200)];
    expect(phasesWith([...untilLit, ...after])).toEqual([
      "running 0-200",
      "raising 200-580",
      "standing 580-600",
    ]);
  });

  test("a fire of which only the end was written down is taken as lit until then", () => {
    expect(phasesWith([pressure(0, 0), pressure(3, 400), fire("out", 500), pressure(2, 900)])).toEqual([
      "raising 0-380",
      "standing 380-500",
      "shut-in 500-900",
    ]);
  });

  test("the fire alone, or the regulator alone, tells them too", () => {
    expect(phasesWith([fire("lit", 0), fire("out", 300), lap(400, 0)])).toEqual([
      "raising 0-300",
      "shut-in 300-400",
    ]);
    expect(phasesWith([regulator("open", 0), regulator("shut", 300)])).toEqual(["running 0-300"]);
    expect(phasesWith([lap(0, 0), lap(400, 0)])).toEqual([]);
  });

  test("two runs with nothing told between them stay two", () => {
    expect(
      phasesWith([
        regulator("open", 0),
        regulator("shut", 50),
        fire("lit", 100),
        regulator("open", 100),
        lap(200),
      ]),
    ).toEqual(["running 0-50", "running 100-200"]);
  });

  // 0.95 x 3 bar on the line from 0 bar at 0 s to 3 bar at 400 s: 380 s
  test("the working band begins at 95 in 100 of working pressure", () => {
    expect(phasesWith([...raised, pressure(3, 600)])).toEqual(["raising 0-380", "standing 380-600"]);
  });

  test("what was run before the band was reached ends the raising too", () => {
    expect(phasesWith([...raised, regulator("open", 200), regulator("shut", 300)])).toEqual([
      "raising 0-200",
      "running 200-300",
      "standing 300-400",
    ]);
  });

  test("a fire that is out makes her shut in, and lit again in the same second does not", () => {
    const cold = [...raised, fire("out", 500)];
    expect(phasesWith([...cold, pressure(2, 900)])).toEqual([
      "raising 0-380",
      "standing 380-500",
      "shut-in 500-900",
    ]);
    expect(phasesWith([...cold, fire("lit", 500), pressure(2, 900)])).toEqual([
      "raising 0-380",
      "standing 380-900",
    ]);
    const ran = [regulator("open", 400), regulator("shut", 450)];
    expect(phasesWith([...raised, ...ran, fire("out", 500), fire("lit", 500), pressure(2, 900)])).toEqual([
      "raising 0-380",
      "standing 380-400",
      "running 400-450",
      "standing 450-900",
    ]);
  });

  test("a run that began before the log is cut at its first entry", () => {
    // a usual lap of 60 s, so running from -20 s
    expect(phasesWith([pressure(3, 0), lap(40), lap(100), lap(160)])).toEqual(["running 0-160"]);
  });

  test("a log of samples alone begins with them", () => {
    const values = [0, 1, 2, 3, 3];
    expect(
      phasesWith([], { traces: [{ channel: "pressureBarG", startS: 100, everyS: 100, values }] }),
    ).toEqual(["raising 100-385", "standing 385-500"]);
  });
});

describe("a hot hold of which the fire was not written down", () => {
  const hold = { purpose: "hot-hold" } as const;

  test("is shut in from its highest pressure on, and raised until then", () => {
    const entries = [pressure(2, 0), pressure(3, 300), pressure(2, 900), pressure(3, 1000)];
    expect(phasesWith(entries, hold)).toEqual(["raising 0-300", "shut-in 300-1000"]);
    // 0.95 x 3 bar on the line from 2 bar at 0 s to 3 bar at 300 s: 255 s
    expect(phasesWith(entries)).toEqual(["raising 0-255", "standing 255-1000"]);
  });

  test("from its start where the highest was read within a quarter of a minute of it", () => {
    const from = (atS: number) => [pressure(2.9, 100), pressure(3, atS), pressure(2, 900)];
    expect(phasesWith(from(115), hold)).toEqual(["shut-in 100-900"]);
    expect(phasesWith(from(116), hold)).toEqual(["raising 100-116", "shut-in 116-900"]);
  });

  test("counts that start from the first sample where there is nothing but samples", () => {
    const values = [2.9, 3, 2.8, 2.6, 2.4];
    expect(
      phasesWith([], {
        ...hold,
        traces: [{ channel: "pressureBarG", startS: 100, everyS: 10, values }],
      }),
    ).toEqual(["shut-in 100-140"]);
  });

  test("with its fire written down goes by the fire", () => {
    const entries = [fire("lit", 0), pressure(2, 0), pressure(3, 300), fire("out", 400), pressure(2, 900)];
    expect(phasesWith(entries, hold)).toEqual(["raising 0-255", "standing 255-400", "shut-in 400-900"]);
  });

  test("without any pressure tells no shutting in", () => {
    expect(phasesWith([mark("standing", 100), lap(100, 0), lap(200, 0)], hold)).toEqual([
      "standing 100-200 marked",
    ]);
    expect(phasesWith([lap(100, 0), lap(200, 0)], hold)).toEqual([]);
  });
});

describe("marks", () => {
  const day = [fire("lit", 0), pressure(0, 0), pressure(3, 400), pressure(3, 900)];

  test("what comes before the first is inferred, unless it is a quarter of a minute or less", () => {
    const ran = [...day, regulator("open", 300), regulator("shut", 380)];
    expect(phasesWith([...ran, mark("shut-in", 395)])).toEqual([
      "raising 0-300",
      "running 300-380",
      "shut-in 395-900 marked",
    ]);
    expect(phasesWith([...ran, mark("shut-in", 396)])).toEqual([
      "raising 0-300",
      "running 300-380",
      "standing 380-396",
      "shut-in 396-900 marked",
    ]);
  });

  test("a short phase at the end of an unmarked log stays", () => {
    expect(phasesWith([...day.slice(0, 2), pressure(3, 200)])).toEqual(["raising 0-190", "standing 190-200"]);
  });

  test("of like name stand apart; one at the last moment, or at that of the next, is none", () => {
    expect(
      phasesWith([
        ...day,
        mark("running", 300),
        mark("running", 500),
        mark("standing", 700),
        mark("shut-in", 700),
      ]),
    ).toEqual([
      "raising 0-300",
      "running 300-500 marked",
      "running 500-700 marked",
      "shut-in 700-900 marked",
    ]);
    expect(phasesWith([...day, mark("running", 900)])).toEqual(["raising 0-380", "standing 380-900"]);
  });
});

describe("what is inferred of a run that nobody wrote down as such", () => {
  // working pressure is 3 bar: 1.5 bar is met at 750 s
  const raised = [fire("lit", 0), pressure(0, 500), pressure(3, 1000)];

  test("laps counted at once: she did not set off before half of working pressure was on", () => {
    const laps = [lap(1100, 15), lap(1500, 8)];
    expect(phasesWith([...raised, ...laps])).toEqual(["raising 0-750", "running 750-1500"]);
    // 8 laps of 50 s before 1100 s: 700 s; had it been one only, 1050 s
    expect(phasesWith([...raised, lap(1100), lap(1500, 8)])).toEqual([
      "raising 0-975",
      "standing 975-1050",
      "running 1050-1500",
    ]);
    // counted back beyond the lighting, or after a note that none was run yet, the same
    expect(phasesWith([...raised, lap(1100, 25), lap(1500, 8)])).toEqual([
      "raising 0-750",
      "running 750-1500",
    ]);
    expect(phasesWith([...raised.slice(0, 2), lap(600, 0), raised[2] as Entry, ...laps])).toEqual([
      "raising 0-750",
      "running 750-1500",
    ]);
    // what the regulator tells is believed, however little steam there was
    expect(phasesWith([...raised, regulator("open", 600), ...laps, regulator("shut", 1500)])[0]).toBe(
      "raising 0-600",
    );
    // a lap run before that pressure was met says that she was under way
    expect(phasesWith([...raised, lap(700), lap(720, 0), lap(1500, 8)])[0]).toBe("raising 0-600");
    const noSteam = [fire("lit", 0), pressure(0, 500), pressure(0.5, 1000), ...laps];
    expect(phasesWith(noSteam)).toEqual(["raising 0-350", "running 350-1500"]);
  });

  test("standing in steam from the first with no word of a fire she is not raised; with a fire she is", () => {
    const standing = { purpose: "standing" } as const;
    const steam = [pressure(2, 0), pressure(3, 300), pressure(2, 900)];
    expect(phasesWith(steam, standing)).toEqual(["standing 0-900"]);
    expect(phasesWith([fire("lit", 0), ...steam], standing)).toEqual(["raising 0-255", "standing 255-900"]);
  });

  test("an axle pump's by-pass shut in steam ends the raising, though working pressure was never met", () => {
    const pumped = (entries: Entry[]) =>
      sourcesOf(
        { ...smallEngine(), axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 } },
        { ...smallSteaming(), entries },
      ).phases.map(({ name, fromS, toS }) => `${name} ${whole(fromS)}-${whole(toS)}`);
    const bypass = (state: "open" | "shut", atS: number): Entry => ({ kind: "bypass", state, atS });
    const low = [fire("lit", 0), pressure(0, 500), pressure(2, 1000)];
    const after = [bypass("shut", 1100), bypass("open", 1300), pressure(2, 1400)];
    expect(pumped([...low, ...after])).toEqual(["raising 0-1100", "standing 1100-1400"]);
    // one count of laps at the end says that she ran, and not when
    expect(pumped([...low, ...after, lap(1400, 20)])[0]).toBe("raising 0-1100");
    // shut from the first: from 1.5 bar on, at 875 s
    expect(pumped([fire("lit", 0), bypass("shut", 10), ...low.slice(1), ...after.slice(1)])).toEqual([
      "raising 0-875",
      "standing 875-1400",
    ]);
    expect(
      pumped([fire("lit", 0), bypass("shut", 10), bypass("open", 600), ...low.slice(1), after[2] as Entry]),
    ).toEqual(["raising 0-1400"]);
    expect(phasesWith([...low, ...after]).map((one) => one.split(" ")[0])).toEqual(["raising"]);
    // shut and never opened again; shut with next to no steam; shut before she is known to have run
    expect(pumped([...low, bypass("shut", 1100), pressure(2, 1400)])[0]).toBe("raising 0-1100");
    expect(pumped([fire("lit", 0), pressure(0, 500), bypass("shut", 600), pressure(1, 1000)])).toEqual([
      "raising 0-1000",
    ]);
    expect(pumped([...low, ...after.slice(0, 2), regulator("open", 1350), pressure(2, 1400)])).toEqual([
      "raising 0-1350",
      "running 1350-1400",
    ]);
  });
});

// raised to 2.85 of 3 bar at 385 s, with no steam used before the fire went out
describe("the moment in which the fire is put out", () => {
  const raised = [fire("lit", 0), pressure(0, 100), pressure(3, 400), fire("out", 1000)];
  const purpose = "trial";
  const last = (entries: Entry[], head: Partial<Steaming> = { purpose }) =>
    phasesWith([...raised, ...entries], head).slice(-2);

  test("is part of standing, where less than a minute of it was logged, and from then on she is shut in", () => {
    expect(last([pressure(2.9, 1059)])).toEqual(["raising 0-385", "standing 385-1059"]);
    expect(last([pressure(2.9, 1060)])).toEqual(["standing 385-1000", "shut-in 1000-1060"]);
  });

  test("is part of standing, where the regulator was opened at once after it", () => {
    const runs = [regulator("open", 1010), regulator("shut", 1100)];
    expect(last([...runs, pressure(2, 1300)])).toEqual(["running 1010-1100", "shut-in 1100-1300"]);
    expect(phasesWith([...raised, ...runs, pressure(2, 1300)], { purpose })).toContain("standing 385-1010");
  });

  test("in a hold, and where it was marked, is a shut-in from the first", () => {
    expect(last([pressure(2.9, 1030)], { purpose: "hot-hold" })).toContain("shut-in 1000-1030");
    expect(last([mark("shut-in", 1000), pressure(2.9, 1030)])).toContain("shut-in 1000-1030 marked");
  });
});
