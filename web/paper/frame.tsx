import type { Shade } from "../charts/spec.ts";
import { timeTicks } from "../charts/ticks.ts";
import { mapping } from "./scale.ts";

/** Measures of a chart on paper, in CSS pixels of the printed page (96 to the inch). */
export const paper = { width: 700, axis: 46, labels: 96, text: 10 } as const;

/** Letters of the page's type are about so wide, as a part of their size. */
const LETTER = 0.53;
export const widthOf = (words: string): number => words.length * LETTER * paper.text;

export const timeMapping = (frame: { fromS: number; toS: number }) =>
  mapping(frame.fromS, frame.toS, paper.axis, paper.width - paper.labels);

interface Properties {
  frame: { fromS: number; toS: number; shades: readonly Shade[]; shadeNames: boolean };
  top: number;
  bottom: number;
}

/** Phases behind the plot; their names above it where there is room. */
export function Phases({ frame, top, bottom }: Properties) {
  const x = timeMapping(frame);
  return (
    <g>
      {frame.shades.map((shade) => {
        const [from, to] = [Math.max(x(shade.fromS), paper.axis), Math.min(x(shade.toS), x(frame.toS))];
        if (!(to > from)) return null;
        const name = [shade.name, shade.name.split(",")[0] ?? ""].find(
          (words) => widthOf(words) < to - from - 6,
        );
        const above = frame.shadeNames ? 0 : top;
        return (
          <g key={`${shade.fromS}`}>
            {shade.shaded && (
              <rect x={from} y={above} width={to - from} height={bottom - above} fill="var(--shade)" />
            )}
            {from > paper.axis + 1 && (
              <line x1={from} x2={from} y1={above} y2={bottom} stroke="var(--rule)" stroke-width={0.6} />
            )}
            {frame.shadeNames && name !== undefined && (
              <text x={from + 4} y={top - 9} fill="var(--soft)">
                {name}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** What the numbers under a chart count, short enough to stand beside the last of them. */
export const inTheMargin = (words: string): string =>
  words.replace("minutes", "min").replace("since the start", "since start");

/** Whole minutes under the lowest chart. */
export function TimeAxis({
  frame,
  y,
  words,
}: {
  frame: { fromS: number; toS: number };
  y: number;
  words: string;
}) {
  const x = timeMapping(frame);
  const end = x(frame.toS);
  const said = inTheMargin(words);
  return (
    <g>
      <line x1={paper.axis} x2={end} y1={y} y2={y} stroke="var(--ink)" stroke-width={0.8} />
      {timeTicks(frame.fromS, frame.toS, 12).map(({ value }) => (
        <g key={value}>
          <line x1={x(value)} x2={x(value)} y1={y} y2={y + 3} stroke="var(--ink)" stroke-width={0.8} />
          <text x={x(value)} y={y + 13} text-anchor="middle" fill="var(--soft)">
            {value / 60}
          </text>
        </g>
      ))}
      <text x={paper.width} y={y + 13} text-anchor="end" fill="var(--soft)">
        {said}
      </text>
    </g>
  );
}
