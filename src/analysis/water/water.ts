import type { Locomotive } from "../../logbook/locomotive.ts";
import { overlapS } from "../../logbook/timeline.ts";
import {
  type Absent,
  absent,
  type Figure,
  gathered,
  type Measured,
  type Part,
  scaled,
  standardUncertainty,
} from "../../quantity/measured.ts";
import { positive } from "../../steam/within.ts";
import type { Sources } from "../sources.ts";
import { onlyLeaked } from "../state/only-leaked.ts";
import { lengthS, type Phase, underWayStretches } from "../state/phases.ts";
import type { BalanceInput } from "./balance-factors.ts";
import { type DemandEffect, demandBesidePump, demandEffects, unmeasuredPumping } from "./demand-effects.ts";
import { blurredByFeeding, madeBy, strayOfTiming, timingName, waterMoves } from "./feed-course.ts";
import { leakClock } from "./leak-clock.ts";
import { massReadings } from "./mass-readings.ts";
import { overfilledFrom, withoutOverfilling } from "./overfilling.ts";
import { toppingUpOf } from "./topping-up.ts";
import { fedUnseen, type UnseenPump, withUnseen } from "./unseen-pump.ts";
import { type WaterBalance, waterBalance } from "./water-balance.ts";

/** A demand that is not running strays by so much of what it strays while running (our choice). */
const LIVELY = { running: 1, other: 0.3 };

export interface Water {
  balance: WaterBalance | null;
  input: BalanceInput;
  /** why there is no balance */
  why: string;
  /** an axle pump that fed though nothing was written of it */
  unseen?: UnseenPump;
}

/** What the balance is made from, without working it out. */
export function balanceInputOf(from: Sources): BalanceInput {
  const readings = withoutOverfilling(from, massReadings(from));
  const massKnownFromOrder =
    readings.find((reading) => reading.of === "contents")?.order ?? Number.POSITIVE_INFINITY;
  const running = from.phases.filter((phase) => phase.name === "running");
  const pumping = stoodThroughout(from)
    ? null
    : unmeasuredPumping(from.timeline, from.phases, from.locomotive);
  const { absolutePa } = from.around;
  const told = demandEffects(
    from.timeline,
    from.phases,
    from.pressure,
    leakClock(from.pressure, (barG) => absolutePa(barG) / absolutePa(from.locomotive.workingPressureBarG)),
    onlyLeaked(from),
  );
  const effects = from.phases.length > 0 ? told : [...told, steadyThroughout(readings)];
  const prior = pumpPrior(from);
  const moves = waterMoves(from, massKnownFromOrder, pumping === null ? 0 : prior.gPerS).filter(
    (move) => overfilledFrom(from, readings, move) === null,
  );
  const input: BalanceInput = {
    readings: blurredByFeeding(readings, moves),
    moves,
    effects: pumping === null ? effects : [...effects, demandBesidePump(from.timeline, from.phases, pumping)],
    livelyS: livelyClock(running),
    pumpingS: pumping === null ? null : (atS) => overlapS(pumping, Number.NEGATIVE_INFINITY, atS),
    pumpPrior: prior,
  };
  const toppingUp = toppingUpOf(input);
  return toppingUp === null
    ? input
    : {
        ...input,
        toppingUp,
        readings: input.readings.filter(({ order }) => order !== toppingUp.filling.order),
      };
}

/** A standing test of which no entry tells that she ran: her wheels drive no pump, whatever its by-pass. */
const stoodThroughout = ({ steaming, phases }: Sources): boolean =>
  steaming.purpose === "standing" && phases.every(({ name }) => name !== "running");

/** Where nothing tells one part of the time from another: one rate of which nothing is known. */
const steadyThroughout = (readings: BalanceInput["readings"]): DemandEffect => ({
  name: "throughout",
  within: [[readings[0]?.atS ?? 0, readings.at(-1)?.atS ?? 0]],
  prior: 10,
});

export function waterOf(from: Sources): Water {
  const input = balanceInputOf(from);
  const hidden = pumpedUnseen(from);
  const balance = hidden ? null : waterBalance(input);
  const why = hidden
    ? "the by-pass was shut, and neither the pump's feed nor when the engine ran was recorded"
    : input.readings.length === 0
      ? weighed(from)
        ? FUEL_UNKNOWN
        : "nothing was read that tells the water in the boiler (glass, filling and draining, or weight)"
      : "the water in the boiler was read once only: read it again";
  const fed = fedUnseen(from, input, turnsASecond(from).usual);
  return fed ? { balance, input, why, unseen: unseenPump(from) } : { balance, input, why };
}

/** Anything between nothing and the most that her axle pump can have fed. */
export function unseenPump(from: Sources): UnseenPump {
  const underWay = underWayStretches(from.timeline, from.phases);
  return { underWay, mostGPerS: mostPumpedG(from) / lengthS(underWay) };
}

const FUEL_UNKNOWN =
  "the engine was weighed, but what her fire burnt meanwhile is not known: write down the fuel put in and what is left";
const weighed = ({ timeline }: Sources): boolean =>
  timeline.of("weight").length > 0 || timeline.traces.some(({ channel }) => channel === "massG");

/**
 * Whether an axle pump may have fed that no entry tells of: by-pass shut in steam on a trial of which no lap, no
 * regulator and no mark says when the wheels turned.
 */
function pumpedUnseen({ locomotive, steaming, timeline, phases, pressure }: Sources): boolean {
  if (locomotive.axlePump === undefined || steaming.purpose !== "trial") return false;
  if (timeline.of("feed").some((entry) => entry.by === "axle-pump")) return false;
  if (phases.some((phase) => phase.name === "running" || phase.name === "standing")) return false;
  const steamS = pressure.firstSteamS ?? Number.NEGATIVE_INFINITY;
  return timeline
    .of("bypass")
    .some((entry, i, all) => entry.state === "shut" && (all[i + 1]?.atS ?? Infinity) > steamS);
}

function livelyClock(running: readonly Phase[]): (atS: number) => number {
  if (running.length === 0) return (atS) => atS;
  return (atS) => {
    let total = LIVELY.other * atS;
    for (const phase of running) {
      total += (LIVELY.running - LIVELY.other) * Math.max(0, Math.min(atS, phase.toS) - phase.fromS);
    }
    return total;
  };
}

/** Volumetric efficiency of an axle pump (common practice: worn balls and seats to new ones). */
const PUMP_EFFICIENCY = { usual: 0.65, u: 0.2 };
/** Turns of a driving wheel a second where laps do not tell (common practice, of small engines and large alike). */
const TURNS_PER_S = { usual: 4.5, u: 2 };

/** What an axle pump nobody measured may deliver, g a second under way: swept volume x turns a second x efficiency. */
function pumpPrior(from: Sources): BalanceInput["pumpPrior"] {
  const pump = from.locomotive.axlePump;
  if (pump === undefined) return { gPerS: 0, uGPerS: 0 };
  const turnsPerS = turnsASecond(from);
  const gPerS = PUMP_EFFICIENCY.usual * axlePumpSweptMl(pump) * turnsPerS.usual;
  const uRelative = Math.hypot(PUMP_EFFICIENCY.u / PUMP_EFFICIENCY.usual, turnsPerS.u / turnsPerS.usual);
  return { gPerS, uGPerS: gPerS * uRelative };
}

/** The most that an axle pump of which nothing was written may have fed while she ran, by-pass shut all the while, g. */
export function mostPumpedG(from: Sources): number {
  const pump = from.locomotive.axlePump;
  if (pump === undefined) return 0;
  const seconds = lengthS(underWayStretches(from.timeline, from.phases));
  const efficiency = PUMP_EFFICIENCY.usual + PUMP_EFFICIENCY.u;
  return efficiency * axlePumpSweptMl(pump) * turnsASecond(from).usual * seconds;
}

/**
 * Ram x stroke of one turn of the driving wheel, ml.
 * @throws RangeError where they do not come to more than 0
 */
export function axlePumpSweptMl(pump: NonNullable<Locomotive["axlePump"]>): number {
  const sweptMl = ((Math.PI / 4) * pump.ramMm ** 2 * pump.strokeMm * pump.strokesPerRev) / 1000;
  positive(sweptMl, "ml a turn by ram, stroke and strokes a turn", "axlePump");
  return sweptMl;
}

/** Mean turns of the driving wheel a second under way: as counted, else as is usual. */
function turnsASecond(from: Sources): { usual: number; u: number } {
  const underWay = underWayStretches(from.timeline, from.phases);
  const seconds = lengthS(underWay);
  const turns = from.counted.turnsIn(underWay);
  return turns !== null && turns.value > 0 && seconds > 0
    ? { usual: turns.value / seconds, u: standardUncertainty(turns) / seconds }
    : TURNS_PER_S;
}

/** Drawn in windows of time, g. */
export function drawnWithin(water: Water, windows: readonly (readonly [number, number])[]): Figure {
  if (water.balance === null) return absent(water.why);
  const drawn = windows.flatMap(([fromS, toS]) => [[toS, 1] as const, [fromS, -1] as const]);
  const told = water.balance.estimate({ unit: "g", drawn });
  if (told === null) return absent(notTold(water));
  return water.unseen === undefined ? told : withUnseen(told, water.unseen, drawn);
}

/** Why a part of the steaming is not to be had though water was read. */
export const notTold = (water: Water): string =>
  noRateOf(water)?.why ??
  (water.input.readings.length > 2
    ? "the readings of water do not tell this part of the steaming from the rest: read the glass where it begins and ends"
    : "the water was read twice only, which tells what was drawn in all and not when: read the glass, or weigh the engine, where each part begins and ends");

/**
 * The readings that tell what was drawn: two at least of one kind. A filling alone says nothing of it where the engine was
 * weighed from later on, nor a lone weighing beside the glass.
 */
function tellingReadings({ readings }: BalanceInput): BalanceInput["readings"] {
  const weighings = readings.filter(({ of }) => of === "whole engine").length;
  const telling = readings.filter(
    ({ of }) => (of === "whole engine" ? weighings : readings.length - weighings) > 1,
  );
  return telling.length === 0 ? readings : telling;
}

export function toldBetween(input: BalanceInput): readonly [fromS: number, toS: number] {
  const telling = tellingReadings(input);
  return [telling[0]?.atS ?? 0, telling.at(-1)?.atS ?? 0];
}

/** Drawn from the first reading that tells of it to the last. */
export function drawnInAll(water: Water): { fromS: number | null; toS: number | null; drawn: Figure } {
  if (water.balance === null) return { fromS: null, toS: null, drawn: absent(water.why) };
  const [fromS, toS] = toldBetween(water.input);
  return { fromS, toS, drawn: toS > fromS ? drawnWithin(water, [[fromS, toS]]) : absent(ONE_MOMENT) };
}
const ONE_MOMENT = "the water in the boiler was read at one moment only: read it again later";

/** A filling and a draining tell no rate; null where more was read. */
export const noRateOf = ({ balance, input }: Water): Absent | null =>
  balance !== null && input.readings.every(({ poured }) => poured) ? absent(TOTALS_ONLY) : null;
const TOTALS_ONLY =
  "only the filling and the draining were measured, which tell the water drawn in all and no rate: read the glass, or weigh the engine, as she goes";

/** True mean rate over a window, g/min. */
export function rateWithin(water: Water, fromS: number, toS: number): Figure {
  const noRate = noRateOf(water);
  if (noRate !== null) return noRate;
  const drawn = drawnWithin(water, [[fromS, toS]]);
  return drawn.value === null ? drawn : scaled(drawn, 60 / (toS - fromS), "g/min");
}

/** Feed between the first and the last reading of the water (all of it where there are not two), g. */
export function feedTotal(water: Water): Figure {
  const { moves, pumpingS } = water.input;
  const readings = tellingReadings(water.input);
  const pumped = pumpedTotal(water);
  if (pumped === null && pumpingS !== null)
    return absent(
      "what the axle pump fed was not measured, and the readings of water do not tell it: measure what its tank lost",
    );
  const [first, last] = readings.length > 1 ? [readings[0], readings.at(-1)] : [];
  const parts: Part[] = [];
  let grams = pumped?.value ?? 0;
  for (const move of moves) {
    if (!move.isFeed) continue;
    const [before, until] = [first ? madeBy(move, first) : 0, last ? madeBy(move, last) : 1];
    const share = until - before;
    const uTiming = strayOfTiming(move, until) - strayOfTiming(move, before);
    grams += share * move.grams;
    parts.push(
      { name: move.sourceName, source: move.source, u: move.scaleRelative * share * move.grams },
      { name: "each measure of feed", u: move.uGrams * Math.abs(share) },
      { name: timingName(move), u: Math.abs(uTiming) },
    );
  }
  const told = [...parts, ...(pumped?.parts ?? [])].filter(({ u }) => u !== 0);
  const total = { value: grams, unit: "g", parts: gathered(told) };
  if (water.unseen === undefined || first === undefined || last === undefined) return total;
  return withUnseen(total, water.unseen, [
    [last.atS, 1],
    [first.atS, -1],
  ]);
}

function pumpedTotal(water: Water): Measured | null {
  const { balance, input } = water;
  if (balance === null || input.pumpingS === null) return null;
  const workedS = input.pumpingS(balance.toS) - input.pumpingS(balance.fromS);
  return balance.estimate({ unit: "g", pumpRate: workedS });
}
