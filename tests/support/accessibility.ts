import axe from "axe-core";
import type { Page } from "playwright-core";

const guidelines = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** Violations of WCAG 2.2 A and AA that axe finds on a page as it stands, a line each. */
export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async (runOnly) => {
    const found = await (window as unknown as { axe: typeof axe }).axe.run({ runOnly });
    return found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`,
    );
  }, guidelines);
}
