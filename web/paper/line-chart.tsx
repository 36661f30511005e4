import { type EndLabel, movedApart } from "../charts/end-labels.ts";
import type { ChartLine, LineChart, Marker } from "../charts/spec.ts";
import { thinForDrawing } from "../charts/thin.ts";
import { asTaken } from "../words/number.ts";
import { Phases, paper, TimeAxis, timeMapping, widthOf } from "./frame.tsx";
import { mapping, niceScale, type Scale } from "./scale.ts";

type Place = (value: number) => number;

/** All that a scale is to have room for: what is drawn, and how far up its bands reach. */
export const heightsOf = (lines: readonly ChartLine[]): number[] =>
  lines.flatMap(({ points, band = [] }) => [...points.map(([, y]) => y), ...band.map(([, , high]) => high)]);

/** A chart of lines as a vector drawing: the same chart as on the screen, on the width of a sheet of paper. */
export function PaperLineChart({
  spec,
  height,
  sentence,
}: {
  spec: LineChart;
  height: number;
  sentence: string;
}) {
  const top = spec.shadeNames ? 22 : 8;
  const bottom = height - (spec.timeAxis === null ? 4 : 18);
  const scale = niceScale(heightsOf(spec.lines), Math.max(2, Math.round((bottom - top) / 24)), spec.fromZero);
  const x = timeMapping(spec);
  const y = mapping(scale.low, scale.high, bottom, top);
  return (
    <svg class="paper-chart" viewBox={`0 0 ${paper.width} ${height}`} role="img" aria-label={sentence}>
      <Phases frame={spec} top={top} bottom={bottom} />
      <Grid scale={scale} y={y} right={x(spec.toS)} unit={spec.unit} />
      {spec.lines.map((line) => (
        <Line key={line.label} line={line} x={x} y={y} apart={spec.marksApartPx} top={top} floor={bottom} />
      ))}
      <Labels spec={spec} x={x} y={y} top={top} bottom={bottom} />
      {spec.timeAxis !== null && <TimeAxis frame={spec} y={bottom} words={spec.timeAxis} />}
    </svg>
  );
}

function Grid({ scale, y, right, unit }: { scale: Scale; y: Place; right: number; unit: string }) {
  const last = scale.ticks.length - 1;
  const apart = Math.abs(y(scale.ticks[1] ?? 0) - y(scale.ticks[0] ?? 0));
  const every = Math.ceil((paper.text + 1) / apart);
  return (
    <g>
      {scale.ticks.map((tick, i) => (
        <g key={tick}>
          <line
            x1={paper.axis}
            x2={right}
            y1={y(tick)}
            y2={y(tick)}
            stroke="var(--hair)"
            stroke-width={0.6}
          />
          {(last - i) % every === 0 && (
            <text x={paper.axis - 5} y={y(tick) + 3.5} text-anchor="end" fill="var(--soft)">
              {i === last ? `${asTaken(tick)} ${unit}` : asTaken(tick)}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

interface LineProperties {
  line: ChartLine;
  x: Place;
  y: Place;
  apart: number;
  top: number;
  floor: number;
}

/** More corners than this do not show on paper. */
const CORNERS = 700;

function Line({ line, x, y, apart, top, floor }: LineProperties) {
  const points = thinForDrawing(line.points, CORNERS).map(([at, value]) => [x(at), y(value)] as const);
  const colour = `var(--${line.colour})`;
  const within = (value: number) => Math.max(top, Math.min(floor, y(value)));
  const band = line.band ?? [];
  const edge = [
    ...band.map(([at, lo]) => `${x(at).toFixed(1)},${within(lo).toFixed(1)}`),
    ...[...band].reverse().map(([at, , hi]) => `${x(at).toFixed(1)},${within(hi).toFixed(1)}`),
  ];
  let marked = Number.NEGATIVE_INFINITY;
  const marks = points.filter(([px]) => {
    if (line.marker === "none" || px - marked < apart) return false;
    marked = px;
    return true;
  });
  return (
    <g>
      {edge.length > 0 && <polygon points={edge.join(" ")} fill={colour} fill-opacity={0.2} />}
      <path
        d={pathOf(points, line.stepped === true)}
        fill="none"
        stroke={colour}
        stroke-width={line.limit === true ? 0.8 : 1.6}
        stroke-dasharray={line.dash.join(" ")}
        stroke-linejoin="round"
      />
      {marks.map(([px, py]) => (
        <path
          key={px}
          d={markOf(line.marker, px, py)}
          fill={line.hollow === true ? "var(--paper)" : colour}
          stroke={colour}
          stroke-width={0.8}
        />
      ))}
    </g>
  );
}

function pathOf(points: readonly (readonly [number, number])[], stepped: boolean): string {
  return points
    .map(([px, py], i) => {
      const corner = stepped && i > 0 ? `H${px.toFixed(1)}` : "";
      return `${i === 0 ? "M" : `${corner}L`}${px.toFixed(1)},${py.toFixed(1)}`;
    })
    .join("");
}

function markOf(marker: Marker, x: number, y: number): string {
  const r = 2.6;
  if (marker === "triangle") return `M${x},${y - r}L${x + r},${y + r}L${x - r},${y + r}Z`;
  if (marker === "square") return `M${x - r},${y - r}H${x + r}V${y + r}H${x - r}Z`;
  if (marker === "diamond") return `M${x},${y - r}L${x + r},${y}L${x},${y + r}L${x - r},${y}Z`;
  return `M${x - r},${y}a${r},${r} 0 1 0 ${2 * r},0a${r},${r} 0 1 0 ${-2 * r},0Z`;
}

interface LabelProperties {
  spec: LineChart;
  x: Place;
  y: Place;
  top: number;
  bottom: number;
}

function Labels({ spec, x, y, top, bottom }: LabelProperties) {
  const labels = spec.lines.flatMap((line): EndLabel[] => {
    const last = line.points.at(-1);
    if (last === undefined || line.label === "") return [];
    const width = widthOf(line.label);
    const left = Math.min(x(last[0]) + 8, paper.width - width);
    return [
      { words: line.label, colour: line.colour, bold: line.limit !== true, left, width, y: y(last[1]) + 3.5 },
    ];
  });
  return (
    <g>
      {movedApart(labels, top + 4, bottom).map((label) => (
        <text
          key={label.words}
          x={label.left}
          y={label.y}
          fill={`var(--${label.colour})`}
          font-weight={label.bold ? 700 : 400}
          stroke="#fff"
          stroke-width={2.5}
          paint-order="stroke"
        >
          {label.words}
        </text>
      ))}
    </g>
  );
}
