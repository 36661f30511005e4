import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CAUTION_SENTENCES } from "../../src/analysis/words/cautions.ts";
import type { Item, Point } from "../../src/sizing/drawing.ts";
import { layoutOf } from "../../src/sizing/layout.ts";
import { extentOf, type Piece } from "../../src/sizing/piece.ts";
import { crossSection } from "../../src/sizing/section-drawing.ts";
import { piecesOf } from "../../src/sizing/sheet-pieces.ts";
import type { Tanks } from "../../src/sizing/tanks-schema.ts";
import { A4, SCALE_BAR_MM, TILE, templatePages } from "../../src/sizing/templates.ts";
import { smallEngine } from "../support/small-logbook.ts";

const tanks = (more: object = {}): Tanks => ({
  space: { boilerOuterDiameter: 50, lagging: 1, cleading: 0.3, band: 0.2, clearance: 1, loadingGauge: 90 },
  water: [{ kind: "side-pair", length: 120, height: 34, base: -8, plate: 0.7, cornerRadius: 3, ...more }],
});
const pieces = (more: object = {}) => piecesOf(smallEngine(), layoutOf(tanks(more), undefined, undefined));
const named = (list: readonly Piece[], name: string): Piece => {
  const found = list.find((piece) => piece.name.endsWith(name));
  if (found === undefined) throw new Error(`no piece ${name}`);
  return found;
};

describe("sheet pieces", () => {
  test("a bend takes angle x (radius + factor x plate), and the blank is legs, bends and side", () => {
    const wrapper = named(pieces(), "front, side and rear");
    const bend = (Math.PI / 2) * (3 + 0.4 * 0.7);
    const leg = 45 - 27.5 - 3.7;
    const side = 120 - 2 * 3.7;
    const extent = extentOf(wrapper.outline);
    expect(extent.widthMm).toBeCloseTo(2 * (leg + bend) + side, 9);
    expect(wrapper.bends.map(([[x]]) => x)).toEqual([
      expect.closeTo(leg, 9),
      expect.closeTo(leg + bend, 9),
      expect.closeTo(leg + bend + side, 9),
      expect.closeTo(leg + 2 * bend + side, 9),
    ]);
  });

  test("the free edge of a curved tank's end lies on the cleading's arc with its clearance", () => {
    const list = pieces({ innerFace: "curved", nearest: 10 });
    const { outline } = named(list, "front, side and rear");
    const left = outline.slice(0, outline.length / 2);
    // top at 26 above the middle; a leg reaches from the arc to 3.7 short of 45
    const legMm = (y: number) => 45 - 3.7 - Math.max(10, Math.sqrt(Math.max(0, 27.5 ** 2 - (26 - y) ** 2)));
    const longest = Math.max(...left.map(([, y]) => legMm(y)));
    expect(left.length).toBeGreaterThan(50);
    for (const [x, y] of left) expect(x).toBeCloseTo(longest - legMm(y), 9);
  });

  test.each(["flat", "curved"])("a tank as high as a mast, %s, is cut all the same", (innerFace) => {
    const { outline } = named(pieces({ height: 200_000, innerFace }), "front, side and rear");
    expect(extentOf(outline).heightMm).toBe(200_000);
    expect(outline.length).toBeLessThan(300);
  });

  test("a curved inner sheet is as long as its arc at the bend factor's depth and its upright part", () => {
    const { outline } = named(pieces({ innerFace: "curved", nearest: 10 }), "inner sheet");
    const end = Math.sqrt(27.5 ** 2 - 10 ** 2);
    const arc = (27.5 + 0.28) * (Math.asin(end / 27.5) - Math.asin(-8 / 27.5));
    expect(extentOf(outline).heightMm).toBeCloseTo(arc + (26 - end), 9);
    expect(extentOf(outline).widthMm).toBeCloseTo(120 - 1.4, 9);
  });
});

describe("cut-outs of a box", () => {
  const box = (cutOuts: object[], cornerRadius = 0) =>
    named(
      piecesOf(
        smallEngine(),
        layoutOf(
          {
            water: [
              {
                kind: "tender",
                length: 80,
                width: 40,
                height: 25,
                plate: 0.8,
                cornerRadius,
                cutOuts,
              } as never,
            ],
          },
          undefined,
          undefined,
        ),
      ),
      "sides in one",
    );
  /** The sheet folded up again: on which long side a place lies, and how far from the inside of the front end. */
  const folded = ({ bends }: Piece, x: number, radius: number): readonly [side: string, along: number] => {
    const at = bends.map(([[bend]]) => bend);
    const [frontEnd, , , wholeFrom, wholeTo, , , rearTo] = at as [number, ...number[]];
    if (x <= frontEnd) return ["jointed", frontEnd - x + radius];
    if (x >= (wholeFrom ?? 0) && x <= (wholeTo ?? 0)) return ["whole", x - (wholeFrom ?? 0) + radius];
    return ["jointed", 80 - 1.6 - (x - (rearTo ?? 0)) - radius];
  };
  const openings = (piece: Piece, radius: number) =>
    piece.windows.map((window) => {
      const { leftMm, topMm, widthMm, heightMm } = extentOf(window);
      const [[side, a], [other, b]] = [
        folded(piece, leftMm, radius),
        folded(piece, leftMm + widthMm, radius),
      ];
      expect(other).toBe(side);
      return {
        side,
        from: Math.min(a, b),
        to: Math.max(a, b),
        up: 25 - 0.8 - topMm - heightMm,
        high: heightMm,
      };
    });

  test("one that does not go through opens in the whole long side, at its own place", () => {
    for (const radius of [0, 4]) {
      expect(openings(box([{ along: 12, length: 20, up: 3, height: 9, width: 6 }], radius), radius)).toEqual([
        {
          side: "whole",
          from: expect.closeTo(12, 9),
          to: expect.closeTo(32, 9),
          up: expect.closeTo(3, 9),
          high: 9,
        },
      ]);
    }
  });

  test("one right through opens in both, in two parts where the joint crosses it", () => {
    const found = openings(box([{ along: 30, length: 25, up: 0, height: 8 }], 4), 4);
    const spans = found.map(({ side, from, to }) => [side, Number(from.toFixed(9)), Number(to.toFixed(9))]);
    // the joint lies at the middle of 78.4 mm inside
    expect(spans).toEqual([
      ["whole", 30, 55],
      ["jointed", 30, 39.2],
      ["jointed", 39.2, 55],
    ]);
    const near = openings(box([{ along: 10, length: 15, up: 0, height: 8 }]), 0);
    expect(near.map(({ side, from, to }) => [side, Number(from.toFixed(9)), Number(to.toFixed(9))])).toEqual([
      ["whole", 10, 25],
      ["jointed", 10, 25],
    ]);
  });
});

const lengthOf = (item: Item): number =>
  item.kind !== "line"
    ? 0
    : item.points.slice(1).reduce((sum, [x, y], i) => {
        const [fromX, fromY]: Point = item.points[i] ?? [x, y];
        return sum + Math.hypot(x - fromX, y - fromY);
      }, 0) + (item.closed ? closing(item.points) : 0);
const closing = (points: readonly Point[]): number => {
  const [first, last] = [points[0], points.at(-1)];
  return first === undefined || last === undefined ? 0 : Math.hypot(first[0] - last[0], first[1] - last[1]);
};

describe("template pages", () => {
  test("each has a scale bar of 100 mm and four registration crosses", () => {
    for (const { items } of templatePages(pieces())) {
      const register = items.filter((item) => item.kind === "line" && item.stroke === "register");
      expect(register.filter((item) => Math.abs(lengthOf(item) - SCALE_BAR_MM) < 1e-9)).toHaveLength(1);
      expect(register.filter((item) => Math.abs(lengthOf(item) - 8) < 1e-9)).toHaveLength(8);
    }
  });

  test("each bears the cautions, clear of bar, crosses, heading and pieces", () => {
    for (const { items } of templatePages(pieces())) {
      const words = items.flatMap((item) => (item.kind === "text" ? [item] : []));
      const cautions = words.filter(({ at: [, y] }) => y > TILE.topMm + TILE.heightMm + 4);
      const said = cautions.map(({ text }) => text).join(" ");
      for (const caution of CAUTION_SENTENCES) expect(said).toContain(caution);
      const bar = items.flatMap((item) =>
        item.kind === "line" && item.stroke === "register" ? item.points.map(([, y]) => y) : [],
      );
      for (const { at, text, sizeMm } of cautions) {
        const isOfBar = text.startsWith("This bar");
        // letters reach from 0.75 of their size above the line to 0.25 below it
        const [high, low] = [at[1] - 0.75 * sizeMm, at[1] + 0.25 * sizeMm];
        if (!isOfBar) expect(bar.filter((y) => y > high && y < low)).toEqual([]);
        expect(at[1]).toBeLessThan(A4.heightMm - 10);
      }
    }
  });

  test("what is to be done with a piece stands with it, on pages of its own under their heading", () => {
    const all = pieces({ innerFace: "curved", nearest: 10, length: 400, height: 60 });
    const pages = templatePages(all);
    const saidOn = ({ items }: (typeof pages)[number]) =>
      items.flatMap((item) => (item.kind === "text" ? [item.text] : [])).join(" ");
    for (const { name, note } of all) {
      const own = pages.filter((page) => saidOn(page).includes(` x ${name}: `));
      expect(own.length, name).toBeGreaterThan(0);
      for (const page of own) expect(saidOn(page), name).toContain(note ?? "");
    }
    expect(all.filter(({ note }) => note !== null).length).toBeGreaterThan(4);
  });

  test("no two lines of words lie over one another, nor over a cross", () => {
    for (const list of [pieces(), pieces({ innerFace: "curved", nearest: 10, length: 400, height: 60 })]) {
      for (const { items } of templatePages(list)) {
        const boxes = items.flatMap((item) =>
          item.kind === "text"
            ? [{ left: item.at[0], right: item.at[0] + item.text.length * item.sizeMm * 0.5, y: item.at[1] }]
            : [],
        );
        boxes.forEach((one, i) => {
          for (const other of boxes.slice(i + 1)) {
            const beside = one.right <= other.left || other.right <= one.left;
            expect(beside || Math.abs(one.y - other.y) > 3.7, JSON.stringify([one, other])).toBe(true);
          }
          const crossed = [TILE.leftMm, TILE.leftMm + TILE.widthMm].flatMap((x) =>
            [TILE.topMm, TILE.topMm + TILE.heightMm].filter(
              (y) => one.left < x + 4 && one.right > x - 4 && one.y > y - 4 && one.y - 2.9 < y + 4,
            ),
          );
          expect(crossed, JSON.stringify(one)).toEqual([]);
        });
      }
    }
  });

  test("nothing is lost or doubled in tiling: the cut lines of all pages are as long as those of the pieces", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 700, noNaN: true }),
        fc.double({ min: 5, max: 600, noNaN: true }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (width, height, slant) => {
          const outline: Point[] = [
            [0, 0],
            [width, 0],
            [width * slant, height],
          ];
          const piece = {
            name: "any",
            count: 1,
            thicknessMm: 0.7,
            outline,
            bends: [],
            windows: [],
            note: null,
          };
          const cut = templatePages([piece])
            .flatMap(({ items }) => items)
            .filter((item) => item.kind === "line" && item.stroke === "cut")
            .reduce((sum, item) => sum + lengthOf(item), 0);
          const whole = outline.reduce((sum, [x, y], i) => {
            const [toX, toY] = outline[(i + 1) % 3] ?? [x, y];
            return sum + Math.hypot(toX - x, toY - y);
          }, 0);
          // an edge that lies on the joint of two tiles is drawn on both
          expect(cut).toBeGreaterThan(whole - 1e-6);
          expect(cut).toBeLessThan(whole + height + width + 1e-6);
          if (width < TILE.widthMm && height < 200) expect(cut).toBeCloseTo(whole, 6);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("every line stays on the part of the page that printers reach", () => {
    const long = pieces({ length: 400, height: 60 });
    for (const { items } of templatePages(long)) {
      for (const item of items) {
        if (item.kind !== "line" || item.stroke === "register") continue;
        for (const [x, y] of item.points) {
          expect(x).toBeGreaterThanOrEqual(TILE.leftMm - 1e-9);
          expect(x).toBeLessThanOrEqual(TILE.leftMm + TILE.widthMm + 1e-9);
          expect(y).toBeGreaterThanOrEqual(TILE.topMm - 1e-9);
          expect(y).toBeLessThanOrEqual(TILE.topMm + TILE.heightMm + 1e-9);
        }
      }
    }
  });
});

test("the cross-section is to scale: gauge, boiler and tank stand at their own millimetres", () => {
  const drawing = crossSection(layoutOf(tanks(), undefined, undefined), 3);
  if (drawing === null) throw new Error("there is no drawing");
  const circles = drawing.items.flatMap((item) => (item.kind === "circle" ? [item.radiusMm] : []));
  expect(circles).toEqual([25, 26, expect.closeTo(26.5, 9)]);
  const outlines = drawing.items.filter((item) => item.kind === "line" && item.stroke === "cut");
  const [first] = outlines;
  if (first?.kind !== "line") throw new Error("the tank is not drawn");
  expect(extentOf(first.points)).toEqual({
    leftMm: expect.closeTo(27.5, 9),
    topMm: expect.closeTo(-26, 9),
    widthMm: expect.closeTo(17.5, 9),
    heightMm: expect.closeTo(34, 9),
  });
});
