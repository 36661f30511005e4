import type { Page } from "playwright-core";
import { expect } from "vitest";
import { type Reported, turned } from "../../src/quantity/reported.ts";

/** A figure as a page shows it. */
export interface ShownFigure {
  /** fails unless it is the reported one: its whole value behind the print, the print a rounding of it, or the reason */
  isOf(reported: unknown): void;
}

/** The figures of a test sheet by their place in the report. */
export async function shownFigures(page: Page): Promise<Record<string, ShownFigure>> {
  const lines = await page.locator("[data-figure]").evaluateAll((elements) =>
    elements.map((element) => ({
      key: element.getAttribute("data-figure") ?? "",
      name: element.querySelector(".figure-name")?.textContent ?? "",
      whole: element.querySelector("data")?.value ?? null,
      printed: element.querySelector("data")?.textContent ?? null,
      unit: element.querySelector(".unit")?.textContent?.trim() ?? "",
      interval: element.querySelector(".interval")?.textContent ?? null,
      why: element.querySelector(".why")?.textContent ?? null,
    })),
  );
  return Object.fromEntries(
    lines.map((line) => [
      line.key,
      {
        isOf(given: unknown) {
          const reported = asNamed(given as Reported, line.name);
          if (reported.value === null) {
            expect(line.why, line.key).toBe(reported.why);
            return;
          }
          expect(Number(line.whole), line.key).toBe(reported.value);
          const factor = timesReported(line.unit);
          isRounding(line.printed, reported.value * factor, line.key);
          if (reported.hi95 === reported.lo95) return;
          const [lo, hi] = (line.interval ?? "").split(" to ");
          isRounding(lo ?? null, reported.lo95 * factor, line.key);
          isRounding(hi ?? null, reported.hi95 * factor, line.key);
        },
      },
    ]),
  );
}

/** What lies below is named so, and stands with its sign turned. */
export const asNamed = (reported: Reported, name: string): Reported =>
  name.startsWith("Below ") ? turned(reported) : reported;

/** How many times the reported figure stands where it is printed in a unit of its own. */
export const timesReported = (unit: string): number => ({ "%": 100, "mg a turn": 1000 })[unit] ?? 1;

/** Within half of the last digit that is printed. */
export function isRounding(printed: string | null, value: number, key: string): void {
  const plain = (printed ?? "nothing").replace("\u2212", "-").replaceAll(",", "");
  const decimals = plain.split(".")[1]?.length ?? 0;
  expect(Math.abs(Number(plain) - value), `${key}: ${printed} for ${value}`).toBeLessThanOrEqual(
    0.5000001 * 10 ** -decimals,
  );
}
