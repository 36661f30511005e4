import type { FittingBook } from "../../../src/care/book-schema.ts";
import type { ChartLine, LineChart } from "../../charts/spec.ts";
import { serviceNames } from "../../words/names.ts";
import { dateInWords } from "../../words/time.ts";

/** The time axis counts seconds and prints minutes: hours in steam stand in place of its minutes. */
const AXIS = 60;
const UPRIGHT_PER_READING_PX = 10;

interface Life {
  label: string;
  points: [number, number][];
}

/** Catches against hours in steam since the service: this life, the one before, the limit, and where it goes. */
export function fittingChart(care: FittingBook): LineChart | null {
  const lives = livesOf(care);
  const [now, before] = lives;
  if (now === undefined || (now.points.length === 0 && (before?.points.length ?? 0) === 0)) return null;
  const course = care.course.map(({ hours, ...rest }) => ({ x: hours - care.startH, ...rest }));
  const ends = [...lives.flatMap(({ points }) => points.map(([x]) => x)), ...course.map(({ x }) => x), 1];
  const toH = Math.max(...ends);
  const lines: ChartLine[] = [
    {
      label: now.points.length === 0 ? "" : "now",
      colour: "water",
      dash: [],
      marker: "circle",
      points: now.points.map(([x, y]) => [x * AXIS, y] as const),
    },
  ];
  if (before !== undefined && before.points.length > 0) {
    lines.push({
      label: "before",
      colour: "soft",
      dash: [2, 4],
      marker: "square",
      hollow: true,
      points: before.points.map(([x, y]) => [x * AXIS, y] as const),
    });
  }
  if (course.length > 0) {
    lines.push({
      label: "course",
      colour: "pressure",
      dash: [8, 4],
      marker: "none",
      points: course.map(({ x, middle }) => [x * AXIS, middle] as const),
      band: course.map(({ x, low, high }) => [x * AXIS, low, high] as const),
    });
  }
  if (care.limit !== null) {
    const { gPerMin } = care.limit;
    lines.push({
      label: "limit",
      colour: "danger",
      dash: [4, 3],
      marker: "none",
      limit: true,
      points: [
        [0, gPerMin],
        [toH * AXIS, gPerMin],
      ],
    });
  }
  return {
    kind: "lines",
    unit: "g/min",
    fromZero: true,
    fromS: 0,
    toS: toH * AXIS,
    marksApartPx: UPRIGHT_PER_READING_PX,
    lines,
    shades: [{ fromS: 0, toS: toH * AXIS, name: now.label, shaded: false }],
    shadeNames: true,
    timeAxis: "hours in steam since then",
    labelWidth: 70,
    labelsInsideWhenNarrow: true,
  };
}

/** This life and the one before it, hours counted from the service that began each. */
function livesOf(care: FittingBook): Life[] {
  const services = [...care.services].sort((a, b) => Date.parse(a.service.at) - Date.parse(b.service.at));
  const begins = [{ atMs: Number.NEGATIVE_INFINITY, atH: 0, label: "since the log began" }];
  for (const { service, atH } of services) {
    begins.push({
      atMs: Date.parse(service.at),
      atH,
      label: `since ${serviceNames[service.what]} ${dateInWords(service.at)}`,
    });
  }
  return begins
    .map(({ atMs, atH, label }, i): Life => {
      const untilMs = begins[i + 1]?.atMs ?? Number.POSITIVE_INFINITY;
      const own = care.drips.filter(({ at }) => Date.parse(at) >= atMs && Date.parse(at) < untilMs);
      return { label, points: own.map(({ hours, gPerMin }) => [hours - atH, gPerMin]) };
    })
    .reverse()
    .slice(0, 2);
}

/** Catches and looks as a table, the latest first. */
export function readingsTable(care: FittingBook): { columns: string[]; rows: string[][] } {
  const drips = care.drips.map(({ at, hours, gPerMin, u }) => ({
    at,
    row: [dateInWords(at), hours.toFixed(1), `${gPerMin.toFixed(3)} g/min`, u.toFixed(3)],
  }));
  const looks = care.looks.map(({ at, hours, grade }) => ({
    at,
    row: [dateInWords(at), hours.toFixed(1), grade, ""],
  }));
  return {
    columns: ["day", "hours in steam", "at working pressure", "give or take"],
    rows: [...drips, ...looks].sort((a, b) => Date.parse(b.at) - Date.parse(a.at)).map(({ row }) => row),
  };
}
