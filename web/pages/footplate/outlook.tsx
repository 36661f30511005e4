import { Mark } from "../../parts/mark.tsx";
import { spanInWords } from "../../words/time.ts";
import type { FuelEnd, Likely } from "./fuel-end.ts";
import type { Reckoning } from "./reckoning.ts";
import type { Alarm } from "./standing.ts";

const LOOK = "Look at the glass.";

/** What wants a look at once: always in sight, and never without the words to look at the glass. */
export function Alarms({ alarms }: { alarms: readonly Alarm[] }) {
  const [first] = alarms;
  if (first === undefined) return null;
  return (
    <div class={`alarms ${first.grade}`} role={first.grade === "danger" ? "alert" : "status"}>
      {alarms.map(({ name, grade, word }) => (
        <strong key={name}>
          <Mark of={grade} /> {word}.{" "}
        </strong>
      ))}
      {LOOK}
    </div>
  );
}

/** What is reckoned to come. */
export function Outlook({ reckoning, nowS }: { reckoning: Reckoning | null; nowS: number }) {
  return (
    <p class="outlook" role="status">
      {reckoning === null ? LOOK : <Words reckoning={reckoning} nowS={nowS} />}
    </p>
  );
}

function Words({ reckoning, nowS }: { reckoning: Reckoning; nowS: number }) {
  const { minutesToLowest, lapsToLowest, steamingRateGPerMin, fuelEnd } = reckoning;
  if (minutesToLowest === null)
    return (
      <>
        {LOOK} <span class="soft">No time is reckoned: {reckoning.why}.</span>
      </>
    );
  const agoMin = Math.max(0, nowS - reckoning.atS) / 60;
  const minutes = later(minutesToLowest, agoMin);
  return (
    <>
      <strong class="span">{range(minutes)} min</strong> of water above the lowest level
      {lapsToLowest !== null && `, ${range(lapsToLowest)} laps`}. {LOOK}
      <span class="soft outlook-more">
        {steamingRateGPerMin !== null && ` ${range(steamingRateGPerMin, 1)} g a minute.`}
        {` ${fuelWords(minutes, fuelEnd, agoMin)}`}
        {agoMin >= 2 && ` Reckoned from entries of ${spanInWords(agoMin * 60)} ago.`}
      </span>
    </>
  );
}

/** As of now: the time since the last entry has run off it. */
const later = ({ value, low, high }: Likely, byMin: number): Likely => ({
  value: Math.max(0, value - byMin),
  low: Math.max(0, low - byMin),
  high: Math.max(0, high - byMin),
});

/** So wide a range says only where it begins. */
const TOO_WIDE = 8;

function range({ low, high }: Likely, decimals = 0): string {
  if (high > 30 && high > TOO_WIDE * Math.max(low, 1)) return `${Math.max(0, low).toFixed(decimals)} or more`;
  const [a, b] = [Math.max(0, low), Math.max(0, high)].map((end) => end.toFixed(decimals));
  return a === b ? `${a}` : `${a} to ${b}`;
}

/** How long a fire burns is a guess, and which of the two ends first with it. */
function fuelWords(water: Likely, { minutes, why }: FuelEnd, agoMin: number): string {
  if (minutes === null) return `Fuel is not reckoned: ${why}.`;
  const fuel = later(minutes, agoMin);
  return `Fuel ${range(fuel)} min, a guess: ${whichEnds(water, fuel)}`;
}

function whichEnds(water: Likely, fuel: Likely): string {
  if (fuel.high < water.low) return "the fire ends first.";
  if (water.high < fuel.low) return "the water ends before the fire: feed her, or put the fire out.";
  return "fire or water may end first.";
}
