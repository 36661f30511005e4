import type { FittingBook } from "../../../src/care/book-schema.ts";
import { counted, shown } from "../../../src/care/words.ts";
import type { ChartLine, LineChart } from "../../charts/spec.ts";
import { serviceNames } from "../../words/fitting-names.ts";
import { dateInWords } from "../../words/time.ts";

/** The time axis counts seconds and prints minutes: hours in steam stand in place of its minutes. */
const AXIS = 60;
const UPRIGHT_PER_READING_PX = 10;

interface Life {
  label: string;
  points: [number, number][];
  /** the service that ended it, and after how many hours */
  ended: { word: string; afterH: number } | null;
}

/** Catches against hours in steam since the service: this life, the one before, the limit, and where it goes. */
export function fittingChart(care: FittingBook): LineChart | null {
  const lives = livesOf(care);
  const [now, before] = lives;
  if (now === undefined || (now.points.length === 0 && (before?.points.length ?? 0) === 0)) return null;
  const course = care.course.map(({ hours, ...rest }) => ({ x: hours - care.startH, ...rest }));
  const ends = [
    ...lives.flatMap(({ points, ended }) => [...points.map(([x]) => x), ended?.afterH ?? 0]),
    ...course.map(({ x }) => x),
    1,
  ];
  const toH = Math.max(...ends);
  const highest = Math.max(
    care.limit?.gPerMin ?? 0,
    ...lives.flatMap(({ points }) => points.map(([, y]) => y)),
  );
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
    if (before.ended !== null) lines.push(serviceMark(before.ended, highest));
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

/** A fine upright line where a service ended the life before. */
const serviceMark = ({ word, afterH }: { word: string; afterH: number }, upTo: number): ChartLine => ({
  label: word,
  colour: "soft",
  dash: [],
  marker: "none",
  limit: true,
  points: [
    [afterH * AXIS, 0],
    [afterH * AXIS, upTo],
  ],
});

/** This life and the one before it, hours counted from the service that began each. */
function livesOf(care: FittingBook): Life[] {
  const done = care.services.filter(({ yetToCome }) => !yetToCome);
  const services = done.sort((a, b) => Date.parse(a.service.at) - Date.parse(b.service.at));
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
      const next = services[i];
      return {
        label,
        points: own.map(({ hours, gPerMin }) => [hours - atH, gPerMin]),
        ended: next === undefined ? null : { word: serviceNames[next.service.what], afterH: next.atH - atH },
      };
    })
    .reverse()
    .slice(0, 2);
}

/** What the chart shows, in a sentence. */
export function chartSentence(care: FittingBook): string {
  const [now, before] = livesOf(care).map(({ points }) => points.length);
  const others = before === undefined || before === 0 ? "" : ` and ${before} of the time before it`;
  const limit = care.limit === null ? "" : `, with the limit of ${care.limit.gPerMin} g/min`;
  const course =
    care.course.length === 0 ? "" : " and its likely course, the band holding it 80 times in 100";
  const since = care.since.service === null ? "" : " since it was last done";
  return `${counted(now ?? 0, "catch")} at working pressure${since}${others}, against hours in steam${limit}${course}.`;
}

/** Catches, looks and what was left out of the course as a table, the latest first. */
export function readingsTable(care: FittingBook): { columns: string[]; rows: string[][] } {
  const rows = [
    ...care.drips.map((drip) => ({ ...drip, read: `${shown(drip.gPerMin)} g/min`, doubt: shown(drip.u) })),
    ...care.looks.map((look) => ({ ...look, read: look.grade, doubt: "" })),
    ...care.leftOut.map((caught) => ({
      ...caught,
      read: `left out, ${shown(caught.gPerMin)} g/min as caught: ${caught.why}`,
      doubt: "",
    })),
  ];
  return {
    columns: ["day", "hours in steam", "at working pressure", "give or take"],
    rows: rows
      .sort((a, b) => Date.parse(b.at) - Date.parse(a.at))
      .map(({ at, hours, read, doubt }) => [dateInWords(at), hours.toFixed(1), read, doubt]),
  };
}
