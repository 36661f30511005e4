import { inflateSync } from "node:zlib";

export interface PdfLine {
  fromMm: readonly [number, number];
  toMm: readonly [number, number];
}

type Matrix = readonly [number, number, number, number, number, number];
const MM_PER_POINT = 25.4 / 72;

const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[1] * n[2],
  m[0] * n[1] + m[1] * n[3],
  m[2] * n[0] + m[3] * n[2],
  m[2] * n[1] + m[3] * n[3],
  m[4] * n[0] + m[5] * n[2] + n[4],
  m[4] * n[1] + m[5] * n[3] + n[5],
];

/** Every straight line that a PDF draws, page by page as its content streams come, in mm of paper (y upwards). */
export function pdfPages(pdf: Buffer): PdfLine[][] {
  const pages: PdfLine[][] = [];
  let at = 0;
  while (true) {
    const begin = pdf.indexOf("stream", at);
    if (begin < 0) return pages;
    const data = pdf.indexOf("\n", begin) + 1;
    const end = pdf.indexOf("endstream", data);
    at = end + "endstream".length;
    const content = inflated(pdf.subarray(data, end));
    // a page sets its scale; the outlines of letters in a font do not
    if (content === null || !/ cm\b/.test(content)) continue;
    const lines = linesOf(content);
    if (lines.length > 0) pages.push(lines);
  }
}

function inflated(data: Buffer): string | null {
  try {
    return inflateSync(data).toString("latin1");
  } catch {
    return null;
  }
}

/** Lines of one content stream: its matrices, saved states and paths (PDF 32000-1, 8.4 and 8.5). */
function linesOf(content: string): PdfLine[] {
  const lines: PdfLine[] = [];
  const saved: Matrix[] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  let [numbers, here, start]: [number[], number[], number[]] = [[], [0, 0], [0, 0]];
  const onPaper = ([x = 0, y = 0]: number[]): readonly [number, number] => [
    (x * matrix[0] + y * matrix[2] + matrix[4]) * MM_PER_POINT,
    (x * matrix[1] + y * matrix[3] + matrix[5]) * MM_PER_POINT,
  ];
  const lineTo = (to: number[]) => {
    lines.push({ fromMm: onPaper(here), toMm: onPaper(to) });
    here = to;
  };
  for (const token of content.match(
    /\/[^\s/<>[\]()]+|\([^)]*\)|<[^>]*>|[-+.\d]+(?=[\s[\]]|$)|[A-Za-z*'"]+|[[\]]/g,
  ) ?? []) {
    const value = Number(token);
    if (!Number.isNaN(value)) {
      numbers.push(value);
      continue;
    }
    if (token === "q") saved.push(matrix);
    else if (token === "Q") matrix = saved.pop() ?? matrix;
    else if (token === "cm") matrix = times(numbers.slice(-6) as unknown as Matrix, matrix);
    else if (token === "m") [here, start] = [numbers.slice(-2), numbers.slice(-2)];
    else if (token === "l") lineTo(numbers.slice(-2));
    else if (token === "h") lineTo(start);
    else if (token === "re") {
      const [x = 0, y = 0, width = 0, height = 0] = numbers.slice(-4);
      here = [x, y];
      for (const corner of [
        [x + width, y],
        [x + width, y + height],
        [x, y + height],
        [x, y],
      ])
        lineTo(corner);
    }
    numbers = [];
  }
  return lines;
}
