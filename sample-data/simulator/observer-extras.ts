import type { Entry } from "../../src/logbook/entry.ts";
import { pullN } from "./engine.ts";
import { type Random, randomOf } from "./random.ts";
import { reading, rounded } from "./readings.ts";
import type { Watch } from "./watch.ts";

/** A thermometer's and a dynamometer's divisions. */
const DIVISION_C = 0.1;
const DIVISION_N = 0.01;
const UNEVENNESS = 0.2;

/** Dynamometer, wheel counter and thermometers. Drawn apart, so that the rest of the log is the same without them. */
export function extraEntries(watch: Watch): Entry[] {
  const { extras } = watch.habits;
  if (extras === undefined) return [];
  const random = randomOf(watch.seed, "extras");
  return [
    ...(extras.pull === undefined ? [] : pulls(watch, extras.pull, random)),
    ...(extras.revolutions === undefined ? [] : revolutions(watch, extras.revolutions, random)),
    ...(extras.thermometers ?? []).flatMap((thermometer) => temperatures(watch, thermometer, random)),
  ];
}

function times(everyS: number, fromS: number, toS: number, random: Random): number[] {
  const found: number[] = [];
  for (let atS = fromS; ; ) {
    atS += everyS * (1 + UNEVENNESS * random.between(-1, 1));
    if (atS >= toS) return found;
    found.push(atS);
  }
}

const underWay = (watch: Watch, atS: number): boolean =>
  atS + 1 <= watch.ledger.endS && watch.at("distanceM", atS + 1) - watch.at("distanceM", atS) > 0.2;

function pulls(watch: Watch, habit: { everyS: number; readingN: number }, random: Random): Entry[] {
  return times(habit.everyS, 0, watch.ledger.endS, random)
    .filter((atS) => underWay(watch, atS))
    .map((atS) => {
      const newtons = pullN(watch.plan, watch.at("distanceM", atS));
      return {
        kind: "pull",
        atS: Math.round(atS),
        newtons: reading(newtons, habit.readingN, DIVISION_N, random),
      };
    });
}

/** Whole turns since the counter was read last. */
function revolutions(watch: Watch, { everyS }: { everyS: number }, random: Random): Entry[] {
  const stops = watch.ledger.happenings.flatMap((happening) =>
    happening.kind === "regulator" && happening.state === "shut"
      ? [Math.min(happening.atS + 5, watch.ledger.endS)]
      : [],
  );
  const read = [
    ...times(everyS, 0, watch.ledger.endS, random).filter((atS) => underWay(watch, atS)),
    ...stops,
  ];
  let shown = 0;
  return read
    .sort((a, b) => a - b)
    .flatMap((atS): Entry[] => {
      const turns = Math.floor(watch.at("revolutions", Math.round(atS)));
      if (turns <= shown) return [];
      const count = turns - shown;
      shown = turns;
      return [{ kind: "revolutions", atS: Math.round(atS), count }];
    });
}

function temperatures(
  watch: Watch,
  { of, everyS, readingC }: { of: "feed" | "ambient" | "boiler"; everyS: number; readingC: number },
  random: Random,
): Entry[] {
  const trueC = (atS: number) =>
    of === "boiler" ? watch.at("temperatureC", atS) : of === "feed" ? watch.plan.feedC : watch.plan.ambientC;
  return times(everyS, 0, watch.ledger.endS, random).map((atS) => {
    const at = Math.round(atS);
    return {
      kind: "temperature",
      atS: at,
      of,
      celsius: rounded(reading(trueC(at), readingC, DIVISION_C, random), DIVISION_C),
    };
  });
}
