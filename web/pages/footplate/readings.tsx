import { glassReading } from "../../../src/logbook/glass-reading.ts";
import { Mark } from "../../parts/mark.tsx";
import { type Showing, showing, toShown } from "../../preferences/shown.ts";
import { plain } from "../../words/number.ts";
import { clockOf } from "../../words/time.ts";
import type { Standing } from "./standing.ts";

interface Properties {
  standing: Standing;
  nowS: number;
  trendBarPerMin: number | null;
  overdue: { pressure: boolean; water: boolean };
}

/** What is known: the last of each, and how old it is. A due reading changes its word, its mark and its ground. */
export function Readings({ standing, nowS, trendBarPerMin, overdue }: Properties) {
  const { pressure, level, feed } = standing;
  const [bar, mm, ml] = [showing("bar"), showing("mm"), showing("ml")];
  const ago = (atS: number) => `${clockOf(Math.max(0, nowS - atS))} ago`;
  return (
    <dl class="readings-now">
      <Cell
        name="Pressure"
        value={pressure === null ? null : asRead(toShown(pressure.barG, bar))}
        unit={bar.unit}
        age={pressure === null ? "not yet" : ago(pressure.atS)}
        due={overdue.pressure}
        more={trendWords(trendBarPerMin)}
      />
      <Cell
        name="Water in glass"
        {...levelShown(level, mm)}
        age={level === null ? "not yet" : ago(level.atS)}
        due={overdue.water}
      />
      <Cell
        name="Fed so far"
        value={plain(toShown(standing.fedMl, ml), ml.factor === 1 ? 0 : 1)}
        unit={ml.unit}
        age={
          feed === null
            ? "nothing yet"
            : `last ${plain(toShown(feed.ml, ml), ml.factor === 1 ? 0 : 1)}, ${ago(feed.atS)}`
        }
        due={false}
      />
      <Cell
        name="Laps"
        value={String(standing.laps)}
        unit=""
        age={
          standing.lastLapS === null || standing.meanLapS === null
            ? standing.laps === 0
              ? "none yet"
              : "the first"
            : `last ${clockOf(standing.lastLapS)}, mean ${clockOf(standing.meanLapS)}`
        }
        due={false}
      />
    </dl>
  );
}

/** Out of sight is a word, and a quarter of the glass no exact number. */
function levelShown(level: Standing["level"], mm: Showing): { value: string | null; unit: string } {
  if (level === null) return { value: null, unit: "" };
  const read = glassReading(level);
  if (read === "below" || read === "above") return { value: read, unit: "out of sight" };
  const value = asRead(toShown(level.mm, mm));
  return { value: read === "quarters" ? `~${value}` : value, unit: mm.unit };
}

const asRead = (value: number): string => String(Number(value.toFixed(2)));

interface CellProperties {
  name: string;
  value: string | null;
  unit: string;
  age: string;
  due: boolean;
  more?: string;
}

function Cell({ name, value, unit, age, due, more = "" }: CellProperties) {
  return (
    <div class={due ? "due" : ""}>
      <dt>{name}</dt>
      <dd>
        <span class="reading">{value ?? "–"}</span> <span class="unit">{value === null ? "" : unit}</span>
        <span class="age">
          {due ? (
            <>
              <Mark of="caution" /> <strong>due:</strong> {age.replace(" ago", "")}
            </>
          ) : (
            age
          )}
          {more !== "" && <span class="more"> · {more}</span>}
        </span>
      </dd>
    </div>
  );
}

function trendWords(barPerMin: number | null): string {
  if (barPerMin === null) return "";
  const as = showing("bar");
  const a = Math.abs(barPerMin * as.factor);
  const text = plain(a, as.factor > 5 ? 0 : a < 0.095 ? 2 : 1);
  if (Number(text) === 0 || Math.abs(barPerMin) < 0.02) return "steady";
  return `${barPerMin < 0 ? "falling" : "rising"} ${text} a minute`;
}
