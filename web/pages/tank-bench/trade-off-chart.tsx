import { type CleadingSurface, cleadingSurfaces } from "../../../src/sizing/lagging-coefficients.ts";
import type { Sizing } from "../../../src/sizing/sizing-schema.ts";
import { ChartTableFold } from "../../parts/chart-table-fold.tsx";
import { plain } from "../../words/number.ts";
import { useWidth } from "./drawing-view.tsx";
import { type LossRange, ranged } from "./loss-range.ts";

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
export function TradeOffChart({
  lagging,
  laggingMm,
  surface = "painted",
}: {
  lagging: Lagging;
  laggingMm: number;
  surface?: CleadingSurface | undefined;
}) {
  const { place, width } = useWidth<HTMLDivElement>();
  const told = lines.filter(({ of }) => lagging.points.some((point) => of(point) !== null));
  const { range95, bareWaterMl } = lagging;
  const highestMl = Math.max(
    ...lagging.points.flatMap((point) => told.map(({ of }) => of(point) ?? 0)),
    ...lagging.points.map(({ waterMl }) => (waterMl ?? 0) * (range95?.high ?? 1)),
  );
  const most = Math.max(1, highestMl, bareWaterMl ?? 0);
  const farthest = lagging.points.at(-1)?.laggingMm ?? 1;
  const x = (mm: number) => FRAME.left + ((width - FRAME.left - FRAME.right) * mm) / farthest;
  const y = (ml: number) => HEIGHT_PX - FRAME.bottom - ((HEIGHT_PX - FRAME.top - FRAME.bottom) * ml) / most;
  const { halfMm } = lagging;
  const cost = halfMm.tankMl === null ? "" : ` and takes ${plain(halfMm.tankMl, 1)} ml of tank`;
  const sentence = `Another half millimetre of lagging saves ${ranged(halfMm.watts, 1, range95)} W, ${ranged(halfMm.mlPerMinute, 2, range95)} ml a minute,${cost === "" ? "" : cost} as each side tank loses ${plain(halfMm.tankWidthMm, 1)} mm of width.`;
  const step = niceStep(most);
  const ticks = Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => i * step);
  return (
    <figure class="chart trade-off">
      <figcaption>{sentence}</figcaption>
      <ChartTableFold
        name="Lagging"
        table={{
          columns: ["lagging mm", "heat lost W", "water ml", "tank ml"],
          rows: [
            [
              "bare, no cleading",
              ranged(lagging.bareW, 1, range95),
              millilitres(bareWaterMl, range95),
              "none",
            ],
            ...lagging.points.map((point) => [
              plain(point.laggingMm, 2),
              ranged(point.lossW, 1, range95),
              millilitres(point.waterMl, range95),
              point.tankMl === null ? "none" : plain(point.tankMl, 1),
            ]),
          ],
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
          {range95 !== null && bareWaterMl !== null && (
            <path class="fill-heat-range" d={rangePath(lagging.points, range95, x, y)} />
          )}
          {bareWaterMl !== null && (
            <g>
              <circle class="dot-heat" cx={x(0)} cy={y(bareWaterMl)} r={5} />
              <text class="words-heat" x={x(0) + 10} y={y(bareWaterMl) + 18} font-size={14}>
                bare
              </text>
            </g>
          )}
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
      <p class="hint">
        The dot is the bare boiler. The line is of a boiler in {cleadingSurfaces[surface].words} cleading,
        from nothing under it to {plain(farthest, 0)} mm of lagging:{" "}
        {surface === "painted"
          ? "paint gives off more than bare metal, so thin lagging first makes that good."
          : "clean metal gives off less than a boiler browned by heat, as long as it is kept so."}
        {range95 === null ? "" : " The band is the 95 % range of the cooling measured."}
      </p>
      <p class="hint">Source: {lagging.source}.</p>
    </figure>
  );
}

const millilitres = (ml: number | null, range: LossRange): string =>
  ml === null ? "not known" : ranged(ml, 1, range);

/** The band about the water boiled away: along its upper edge and back along its lower. */
function rangePath(
  points: readonly Point[],
  range: NonNullable<LossRange>,
  x: (mm: number) => number,
  y: (ml: number) => number,
): string {
  const edge = (part: number) =>
    points.map(
      ({ laggingMm, waterMl }) => `${x(laggingMm).toFixed(1)} ${y((waterMl ?? 0) * part).toFixed(1)}`,
    );
  return `M${[...edge(range.high), ...edge(range.low).reverse()].join("L")}Z`;
}

function niceStep(most: number): number {
  const rough = most / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  return [1, 2, 5, 10].map((times) => times * power).find((step) => step >= rough) ?? rough;
}
