import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { ChartTableFold } from "../../parts/chart-table-fold.tsx";
import { plain } from "../../words/number.ts";
import { useWidth } from "./drawing-view.tsx";

const HEIGHT_PX = 260;
const FRAME = { left: 52, right: 12, top: 46, bottom: 44 };

type Lagging = NonNullable<Sizing["lagging"]>;
type Point = Lagging["points"][number];
type Line = { name: string; of: (point: Point) => number | null; stroke: string };

const lines: readonly Line[] = [
  { name: "boiled away by the heat lost", of: ({ waterMl }) => waterMl, stroke: "heat" },
  { name: "tank room lost to lagging", of: ({ tankMl }) => tankMl, stroke: "room" },
];

/** What lagging saves in water and costs in tank, both in ml over the planned run, on one chart. */
export function TradeOffChart({ lagging, laggingMm }: { lagging: Lagging; laggingMm: number }) {
  const { place, width } = useWidth<HTMLDivElement>();
  const told = lines.filter(({ of }) => lagging.points.some((point) => of(point) !== null));
  const most = Math.max(1, ...lagging.points.flatMap((point) => told.map(({ of }) => of(point) ?? 0)));
  const farthest = lagging.points.at(-1)?.laggingMm ?? 1;
  const x = (mm: number) => FRAME.left + ((width - FRAME.left - FRAME.right) * mm) / farthest;
  const y = (ml: number) => HEIGHT_PX - FRAME.bottom - ((HEIGHT_PX - FRAME.top - FRAME.bottom) * ml) / most;
  const { halfMm } = lagging;
  const cost = halfMm.tankMl === null ? "" : ` and takes ${plain(halfMm.tankMl, 1)} ml of tank`;
  const sentence = `Another half millimetre of lagging saves ${plain(halfMm.watts, 1)} W, ${plain(halfMm.mlPerMinute, 2)} ml a minute,${cost === "" ? "" : cost} as each side tank loses ${plain(halfMm.tankWidthMm, 1)} mm of width.`;
  const step = niceStep(most);
  const ticks = Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => i * step);
  return (
    <figure class="chart trade-off">
      <figcaption>{sentence}</figcaption>
      <ChartTableFold
        name="Lagging"
        table={{
          columns: ["lagging mm", "heat lost W", "water ml", "tank ml"],
          rows: lagging.points.map((point) => [
            plain(point.laggingMm, 2),
            plain(point.lossW, 1),
            point.waterMl === null ? "not known" : plain(point.waterMl, 1),
            point.tankMl === null ? "none" : plain(point.tankMl, 1),
          ]),
        }}
      />
      <div class="trade-off-box" ref={place}>
        <svg role="img" aria-label={sentence} width={width} height={HEIGHT_PX}>
          {ticks.map((ml) => (
            <g key={ml}>
              <path class="stroke-grid" d={`M${FRAME.left} ${y(ml)}H${width - FRAME.right}`} />
              <text x={FRAME.left - 6} y={y(ml) + 5} text-anchor="end" font-size={14}>
                {plain(ml, 0)}
              </text>
            </g>
          ))}
          {[0, 1, 2, 3, 4].map((mm) => (
            <text key={mm} x={x(mm)} y={HEIGHT_PX - FRAME.bottom + 18} text-anchor="middle" font-size={14}>
              {mm}
            </text>
          ))}
          <text x={(FRAME.left + width) / 2} y={HEIGHT_PX - 6} text-anchor="middle" font-size={14}>
            lagging, mm
          </text>
          <text x={4} y={14} font-size={14}>
            ml
          </text>
          <path class="stroke-hidden" d={`M${x(laggingMm)} ${FRAME.top}V${HEIGHT_PX - FRAME.bottom}`} />
          {told.map(({ name, of, stroke }) => (
            <g key={name}>
              <path
                class={`stroke-${stroke}`}
                d={`M${lagging.points.map((point) => `${x(point.laggingMm).toFixed(1)} ${y(of(point) ?? 0).toFixed(1)}`).join("L")}`}
              />
              <text
                class={`words-${stroke}`}
                x={stroke === "heat" ? FRAME.left + 8 : width - FRAME.right}
                y={stroke === "heat" ? 16 : 36}
                text-anchor={stroke === "heat" ? "start" : "end"}
                font-size={14}
              >
                {name}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <p class="hint">Source: {lagging.source}.</p>
    </figure>
  );
}

function niceStep(most: number): number {
  const rough = most / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  return [1, 2, 5, 10].map((times) => times * power).find((step) => step >= rough) ?? rough;
}
