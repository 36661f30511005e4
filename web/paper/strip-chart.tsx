import type { StripChart } from "../charts/spec.ts";
import { Phases, paper, TimeAxis, timeMapping } from "./frame.tsx";

export const paperRowHeight = 12;

/** What was done and when, as a vector drawing. */
export function PaperStripChart({ spec, sentence }: { spec: StripChart; sentence: string }) {
  const top = spec.shadeNames ? 18 : 2;
  const bottom = top + spec.rows.length * paperRowHeight;
  const x = timeMapping(spec);
  const end = x(spec.toS);
  return (
    <svg class="paper-chart" viewBox={`0 0 ${paper.width} ${bottom + 18}`} role="img" aria-label={sentence}>
      <Phases frame={spec} top={top} bottom={bottom} />
      {spec.rows.map((row, i) => {
        const y = top + (i + 0.5) * paperRowHeight;
        return (
          <g key={row.name}>
            <line x1={paper.axis} x2={end} y1={y} y2={y} stroke="var(--hair)" stroke-width={0.6} />
            {row.spans.map(([fromS, toS]) => (
              <rect
                key={fromS}
                x={x(fromS)}
                y={y - 2}
                width={Math.max(0.5, x(toS) - x(fromS))}
                height={4}
                fill="var(--ink)"
              />
            ))}
            {row.ticks.map((atS, tick) => (
              <line
                // two may have been written in one second
                key={`${atS} ${tick}`}
                x1={x(atS)}
                x2={x(atS)}
                y1={y - 3.5}
                y2={y + 3.5}
                stroke="var(--ink)"
                stroke-width={0.8}
              />
            ))}
            <text x={end + 6} y={y + 3.5} fill="var(--ink)">
              {row.name}
            </text>
          </g>
        );
      })}
      {spec.timeAxis !== null && <TimeAxis frame={spec} y={bottom} words={spec.timeAxis} />}
    </svg>
  );
}
