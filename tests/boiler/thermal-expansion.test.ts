import { describe, expect, test } from "vitest";
import { overflowM3 } from "../../src/boiler/thermal-expansion.ts";

describe("water against its boiler as both warm", () => {
  // 500 ml, copper: water expands 2.07e-4 /K at 20 °C (handbook), copper 0.495e-4: 500 x 1.57e-4 x 0.1 = 0.0079 ml
  test("a tenth of a degree at 20 °C", () => {
    const ml = 1e6 * overflowM3(500e-6, "copper", 6e5, 293.1, 293.2);
    expect(ml).toBeGreaterThan(0.0077);
    expect(ml).toBeLessThan(0.0081);
  });

  test("there and back is nothing, cooling draws in", () => {
    const there = overflowM3(1e-3, "steel", 6e5, 285, 287);
    expect(there).toBeGreaterThan(0);
    expect(there + overflowM3(1e-3, "steel", 6e5, 287, 285)).toBeCloseTo(0, 9);
  });

  test("below 4 °C warming water shrinks", () => {
    expect(overflowM3(1e-3, "brass", 2e5, 274.15, 275.15)).toBeLessThan(0);
  });

  test("brass takes up more of it than copper, copper more than steel", () => {
    const at = (metal: "brass" | "copper" | "steel") => overflowM3(1e-3, metal, 6e5, 290, 291);
    expect(at("copper") - at("brass")).toBeCloseTo(1e-3 * 3 * 2.5e-6, 12);
    expect(at("steel") - at("copper")).toBeCloseTo(1e-3 * 3 * 4.7e-6, 12);
  });
});
