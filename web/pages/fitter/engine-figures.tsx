import { useLayoutEffect, useRef } from "preact/hooks";
import type { Book } from "../../../src/care/book-schema.ts";
import { asTaken } from "../../words/number.ts";
import { dateInWords } from "../../words/time.ts";

type Indicator = Book["indicators"][number];

/** Figures of the whole engine that fittings in need of care move, each against her own outings before. */
export function EngineFigures({ book }: { book: Book }) {
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    // a box that scrolls must be reached by the keyboard
    if (box.current !== null) box.current.tabIndex = 0;
  }, []);
  if (book.indicators.length === 0) return null;
  return (
    <details class="fold">
      <summary>Her own figures, outing by outing</summary>
      <p class="soft">
        Compared with her own like outings before, never with another engine. A running sum gives alarm; where
        nothing has changed it does so once in about {Math.round(book.outingsToFalseAlarm)} outings for each
        figure.
      </p>
      <section class="scroll" ref={box} aria-label="Her own figures">
        <table>
          <thead>
            <tr>
              <th scope="col">figure</th>
              <th scope="col">last</th>
              <th scope="col">outings</th>
              <th scope="col">against before</th>
            </tr>
          </thead>
          <tbody>
            {book.indicators.map((indicator) => (
              <tr key={indicator.key}>
                <th scope="row">{indicator.name}</th>
                <td>{lastOf(indicator)}</td>
                <td>{indicator.points.length}</td>
                <td>{standing(indicator)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

function lastOf({ points, unit }: Indicator): string {
  const last = points.at(-1);
  return last === undefined
    ? ""
    : `${asTaken(Number(last.value.toPrecision(3)))}${unit === "1" ? "" : ` ${unit}`}`;
}

function standing({ points, alarmAt, sudden, worse }: Indicator): string {
  const alarm = points.find(({ steamingId }) => steamingId === alarmAt);
  if (alarm !== undefined) return `gone ${worse} since ${dateInWords(alarm.at)}: alarm`;
  if (sudden) return `the last is beyond what one more like those before would be, 99 times in 100`;
  return points.some(({ worseBy }) => worseBy !== null) ? "no change to be told" : "too few like outings yet";
}
