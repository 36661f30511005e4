import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { heldBy, type Layout, layoutOf } from "../../src/sizing/layout.ts";
import { crossSection } from "../../src/sizing/section-drawing.ts";
import type { Tank } from "../../src/sizing/tanks-schema.ts";
import { space } from "./usual-space.ts";

const well = (more: object = {}): Tank => ({
  kind: "well",
  length: 60,
  width: 28,
  height: 12,
  base: -45,
  ...more,
});
const side: Tank = { kind: "side-pair", length: 100, height: 30, base: -10 };
const layout = (...water: Tank[]): Layout => layoutOf({ space, water }, undefined, undefined);
const whyOf = (from: Layout): string | null => {
  const [own] = from.tanks;
  return own === undefined ? "no tank" : heldBy(from, own).why;
};

describe("where a well tank stands", () => {
  // 25 + 1 + 0.3 + 0.2 + 1 = 27.5 from the boiler's middle
  test("its top keeps clear of the cleading: at -27.5 it may stand, a tenth higher it may not", () => {
    expect(whyOf(layout(well({ base: -39.5 })))).toBeNull();
    expect(whyOf(layout(well({ base: -39.4 })))).toBe(
      "its top stands 0.1 mm too high under the boiler's cleading and its clearance",
    );
    expect(whyOf(layout(well({ base: -20 })))).toContain("19.5 mm too high");
    expect(whyOf(layout(well({ base: 20 })))).toContain("its underside stands 7.5 mm too low over");
  });

  test("where its height is not said nothing is checked of it", () => {
    const { base: _, ...anywhere } = well() as Extract<Tank, { kind: "well" }>;
    expect(whyOf(layout(anywhere, side))).toBeNull();
  });

  test("it does not reach into the side tanks, nor beyond the loading gauge", () => {
    const deep: Tank = { ...side, base: -42, height: 30 };
    // the flat face of those stands at 27.5 (12 below the middle, the round is nearer: sqrt(27.5^2 - 12^2) = 24.7)
    expect(whyOf(layout(well({ width: 49 }), deep))).toBeNull();
    expect(whyOf(layout(well({ width: 51 }), deep))).toContain(
      "it reaches 0.8 mm into each of the side tanks",
    );
    expect(whyOf(layout(well({ width: 51 }), side))).toBeNull();
    expect(whyOf(layout(well({ width: 91 })))).toBe("it is 1.0 mm too wide for the loading gauge");
  });

  test("is refused just where points of it lie in the boiler's round or in a side tank", () => {
    const any = fc.record({
      width: fc.double({ min: 6, max: 80, noNaN: true }),
      height: fc.double({ min: 4, max: 40, noNaN: true }),
      base: fc.double({ min: -60, max: 35, noNaN: true }),
    });
    fc.assert(
      fc.property(any, ({ width, height, base }) => {
        const [floor, roof] = [-18, 12];
        const flank: Tank = { kind: "side-pair", length: 60, height: roof - floor, base: floor };
        let deepest = 0;
        const n = 60;
        for (let i = 0; i <= n; i++) {
          for (let k = 0; k <= n; k++) {
            const [x, z] = [-width / 2 + (width * i) / n, base + (height * k) / n];
            deepest = Math.max(deepest, 27.5 - Math.hypot(x, z));
            if (z > floor && z < roof) deepest = Math.max(deepest, Math.abs(x) - 27.5);
          }
        }
        const refused = whyOf(layout(well({ width, height, base }), flank)) !== null;
        // points lie a sixtieth apart: what only just touches may slip between them
        if (deepest > 0) expect(refused).toBe(true);
        else if (refused) {
          expect(27.5 - Math.min(Math.abs(base), Math.abs(base + height))).toBeLessThan(
            height / n + width / n,
          );
        }
      }),
      { numRuns: 300 },
    );
  });

  test("a well tank whose place is said stands in the cross-section at its own millimetres", () => {
    const items = crossSection(layout(well(), side), 3)?.items ?? [];
    const outlines = items.flatMap((item) =>
      item.kind === "line" && item.stroke === "cut" ? [item.points] : [],
    );
    expect(outlines).toContainEqual([
      [-14, 33],
      [14, 33],
      [14, 45],
      [-14, 45],
    ]);
  });
});
