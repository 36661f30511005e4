import type { Signal } from "@preact/signals";
import type { Sheet } from "../../api/shapes.ts";
import { valueOn } from "../../charts/value-on.ts";
import { showing, toShown } from "../../preferences/shown.ts";
import { entryInWords } from "../../words/entry-words.ts";
import { plain } from "../../words/number.ts";
import { clockOf } from "../../words/time.ts";

interface Properties {
  sheet: Sheet;
  momentS: Signal<number | null>;
  fromS: number;
  toS: number;
}

/** A moment of the steaming read off all charts at once, by the slider or by pointing at a chart. */
export function ReadAt({ sheet, momentS, fromS, toS }: Properties) {
  const at = momentS.value;
  const words = at === null ? "not set" : readAt(sheet, at);
  return (
    <div class="read-at on-screen">
      <input
        type="range"
        aria-label="Read the charts at"
        min={Math.floor(fromS)}
        max={Math.ceil(toS)}
        step={1}
        value={Math.round(at ?? fromS)}
        aria-valuetext={words}
        onInput={(event) => {
          momentS.value = Number(event.currentTarget.value);
        }}
      />
      <p class="readings">
        {at === null ? "Point at a chart or touch it, or slide, to read it at one moment." : words}
      </p>
    </div>
  );
}

function readAt(sheet: Sheet, at: number): string {
  const { pressure, level, waterDrawn, fuel } = sheet.series;
  const [bar, mm] = [showing("bar"), showing("mm")];
  const p = valueOn(pressure.points, at);
  const l = valueOn(level.points, at);
  const drawn = valueOn(waterDrawn.points, at);
  const burnt = valueOn(fuel.points, at);
  const before = sheet.entries.filter((entry) => entry.atS <= at).at(-1);
  return [
    clockOf(at),
    p === null ? null : `${plain(toShown(p, bar), bar.factor > 5 ? 0 : 2)} ${bar.unit}`,
    l === null ? null : `glass ${plain(toShown(l, mm), mm.factor === 1 ? 1 : 2)} ${mm.unit}`,
    drawn === null ? null : `drawn ${plain(drawn, 0)} g`,
    burnt === null ? null : `burnt ${plain(burnt, 1)} g`,
    before === undefined
      ? null
      : `last entry ${clockOf(before.atS)}: ${entryInWords(before, sheet.locomotive)}`,
  ]
    .filter((part) => part !== null)
    .join("  ·  ");
}
