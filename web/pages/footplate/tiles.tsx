import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { counted } from "../../words/counted.ts";
import { levelWords, reading } from "../../words/entry-words.ts";
import type { Standing } from "./standing.ts";

export type Opened = "pressure" | "water" | "feed" | "fuel" | "strokes" | "states" | "fittings";

interface Properties {
  engine: Locomotive;
  standing: Standing;
  overdue: { pressure: boolean; water: boolean };
  fuelWords: string;
  /** pump strokes are counted where no fire is */
  isWaterTest: boolean;
  onOpen: (what: Opened) => void;
  onLap: () => void;
}

/** What is done: always in the same places, the lap nearest to the thumb. */
export function Tiles({ engine, standing, overdue, fuelWords, isWaterTest, onOpen, onLap }: Properties) {
  const { pressure, level, feed, fire, regulator } = standing;
  const tiles: { of: Opened; name: string; sub: string; due?: boolean }[] = [
    {
      of: "pressure",
      name: "Pressure",
      sub: pressure === null ? "not read yet" : reading(pressure.barG, "bar"),
      due: overdue.pressure,
    },
    {
      of: "water",
      name: "Water",
      sub: level === null ? "not read yet" : levelWords(level),
      due: overdue.water,
    },
    {
      of: "feed",
      name: "Feed",
      sub:
        feed === null
          ? "none yet"
          : feed.strokes === undefined
            ? reading(feed.ml, "ml")
            : `${feed.strokes} strokes`,
    },
    isWaterTest
      ? { of: "strokes", name: "Strokes", sub: "and pressure" }
      : { of: "fuel", name: "Fuel", sub: fuelWords },
    {
      of: "states",
      name: "Valves",
      sub: regulator === null ? `and fire: ${fire ?? "not lit"}` : `regulator ${regulator}`,
    },
    {
      of: "fittings",
      name: "Drip, look",
      sub: counted(engine.fittings.length, "fitting"),
    },
  ];
  return (
    <div class="tiles">
      {tiles.map(({ of, name, sub, due }) => (
        <button key={of} type="button" class={`key ${due === true ? "due" : ""}`} onClick={() => onOpen(of)}>
          {name}
          <span class="sub">{sub}</span>
        </button>
      ))}
      <button type="button" class="key lap" onClick={onLap}>
        Lap <span class="lap-next">{standing.laps + 1}</span>
      </button>
    </div>
  );
}
