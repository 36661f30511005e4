import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

/**
 * Contrast of the tokens by the formula of WCAG 2.2 (relative luminance and contrast ratio), for what a tool
 * that looks at the page cannot see: the colours that are drawn on a canvas.
 */
const text = readFileSync(new URL("../../web/styles/tokens.css", import.meta.url), "utf8");

function tokensOf(theme: string): Record<string, string> {
  const block = new RegExp(`\\[data-theme="${theme}"\\] \\{([^}]*)\\}`).exec(text)?.[1] ?? "";
  return Object.fromEntries([...block.matchAll(/--([a-z0-9-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1], m[2]]));
}

function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const data = ["pressure", "glass", "water", "fuel", "ink", "run-2", "run-3", "run-4", "run-5", "run-6"];
/** Labels in the data's own colours are text, so the lines stand at the measure of text as well. */
const least = { sun: 7, normal: 4.5, night: 4.5 };

test.each(Object.entries(least))(
  "in the %s light every line of data stands at %d to 1 on its grounds",
  (theme, ratio) => {
    const tokens = tokensOf(theme);
    for (const name of data) {
      const colour = tokens[name] ?? "";
      expect(contrast(colour, tokens.paper ?? ""), `${name} on paper`).toBeGreaterThanOrEqual(ratio);
      expect(contrast(colour, tokens.shade ?? ""), `${name} on a shaded phase`).toBeGreaterThanOrEqual(3);
    }
  },
);

test.each(Object.entries(least))("in the %s light the words of the axes stand at %d to 1", (theme, ratio) => {
  const tokens = tokensOf(theme);
  for (const ground of ["paper", "panel", "shade"]) {
    expect(contrast(tokens.soft ?? "", tokens[ground] ?? ""), `soft on ${ground}`).toBeGreaterThanOrEqual(
      ratio,
    );
  }
  expect(contrast(tokens.edge ?? "", tokens.panel ?? ""), "edges of fields").toBeGreaterThanOrEqual(3);
});
