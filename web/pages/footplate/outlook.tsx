import { Mark } from "../../parts/mark.tsx";
import { spanInWords } from "../../words/time.ts";
import type { Likely, Reckoning } from "./reckoning.ts";
import type { Alarm } from "./standing.ts";

const LOOK = "Look at the glass.";

/** What wants a look at once: always in sight, and never without the words to look at the glass. */
export function Alarms({ alarms, reckoning, nowS }: Outlooking & { alarms: readonly Alarm[] }) {
  const [first] = alarms;
  const left = leftOf(reckoning, nowS);
  if (first === undefined) return null;
  return (
    <div class={`alarms ${first.grade}`} role={first.grade === "danger" ? "alert" : "status"}>
      {alarms.map(({ name, grade, word }) => (
        <strong key={name}>
          <Mark of={grade} /> {word}.{" "}
        </strong>
      ))}
      {LOOK}
      {left !== null && <span class="alarm-left"> {range(left)} min of water.</span>}
    </div>
  );
}

interface Outlooking {
  reckoning: Reckoning | null;
  nowS: number;
}

/** What is reckoned to come; without a reckoning only where to look. */
export function Outlook({ reckoning, nowS }: Outlooking) {
  return (
    <p class="outlook" role="status">
      {reckoning === null ? LOOK : <Words reckoning={reckoning} nowS={nowS} />}
    </p>
  );
}

function Words({ reckoning, nowS }: { reckoning: Reckoning; nowS: number }) {
  const { minutesToLowest, lapsToLowest, steamingRateGPerMin, why } = reckoning;
  const agoMin = agoMinOf(reckoning, nowS);
  const left = leftOf(reckoning, nowS);
  // what has run off the minutes has run off the laps, in the same proportion; each sentence whole, or not at all
  const more = [
    left === null
      ? `No time is reckoned: ${why}.`
      : `Above the lowest level${lapsToLowest === null ? "" : `, ${range(inStep(lapsToLowest, minutesToLowest, left))} laps`}.`,
    steamingRateGPerMin !== null && `${range(steamingRateGPerMin, 1)} g a minute.`,
    fuelWords(reckoning, agoMin),
    agoMin >= 2 && `Reckoned from entries of ${spanInWords(agoMin * 60)} ago.`,
  ];
  return (
    <>
      {left !== null && (
        <>
          <strong class="span">{range(left)} min</strong> of water.{" "}
        </>
      )}
      {LOOK}
      <span class="soft outlook-more">
        {more.filter(Boolean).map((sentence) => [" ", <span key={sentence}>{sentence}</span>])}
      </span>
    </>
  );
}

const agoMinOf = ({ atS }: Reckoning, nowS: number): number => Math.max(0, nowS - atS) / 60;

const leftOf = (reckoning: Reckoning | null, nowS: number): Likely | null =>
  reckoning?.minutesToLowest ? later(reckoning.minutesToLowest, agoMinOf(reckoning, nowS)) : null;

/** As of now: the time since the last entry has run off it. */
const later = (span: Likely, byMin: number): Likely => eachEnd((end) => Math.max(0, span[end] - byMin));

const eachEnd = (of: (end: keyof Likely) => number): Likely => ({
  value: of("value"),
  low: of("low"),
  high: of("high"),
});

/** Laps less by what the time since has taken of the minutes, each end by its own. */
export const inStep = (laps: Likely, then: Likely | null, now: Likely): Likely =>
  eachEnd((end) => (then === null || then[end] <= 0 ? 0 : (laps[end] * now[end]) / then[end]));

/** So wide a range says only where it begins. */
const TOO_WIDE = 8;

function range({ low, high }: Likely, decimals = 0): string {
  const [a, b] = [low, high].map((end) => Math.max(0, end).toFixed(decimals));
  if (high > 30 && high > TOO_WIDE * Math.max(low, 1)) return `${a} or more`;
  return a === b ? `${a}` : `${a} to ${b}`;
}

function fuelWords({ fuelMinutes, fuelWhy, waterFirst }: Reckoning, agoMin: number): string {
  if (fuelMinutes === null) return `Fuel is not reckoned: ${fuelWhy}.`;
  return `Fuel ${range(later(fuelMinutes, agoMin))} min.${waterFirst === null ? "" : ` ${firstWords(waterFirst)}`}`;
}

/** Which ends first, in tenths. @param waterFirst the chance that it is the water */
export function firstWords(waterFirst: number): string {
  const tenths = Math.round(10 * waterFirst);
  if (tenths === 5) return "Water or fire may end first, as likely the one as the other.";
  const likelier = Math.max(tenths, 10 - tenths);
  const odds = likelier === 10 ? "almost surely" : `about ${likelier} in 10`;
  return tenths > 5
    ? `The water ends first, ${odds}: feed her, or put the fire out.`
    : `The fire ends first, ${odds}.`;
}
