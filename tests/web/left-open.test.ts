import { expect, test } from "vitest";
import { inParagraph, leftOpen } from "../../web/paper/left-open.ts";

const none = (why: string) => ({ value: null, why });
const told = { value: 3, u: 0.1, lo95: 2.8, hi95: 3.2, unit: "bar" };

test("figures that cannot be had stand together by their reason, without what would mend it", () => {
  const fuel = none("no fuel was recorded: weigh it");
  expect(
    leftOpen([
      { title: "What it came to", lines: [{ key: "a", name: "Fuel a lap", figure: fuel }] },
      {
        title: "Steaming rate, phase by phase",
        lines: [
          { key: "b", name: "Raising", figure: none("the glass was not read") },
          { key: "c", name: "Standing", figure: none("the glass was not read") },
        ],
      },
      { title: "Fire and boiler", lines: [{ key: "d", name: "Evaporation", figure: fuel }] },
      {
        title: "Safety valve",
        lines: [
          { key: "e", name: "Lifts at", figure: told },
          { key: "f", name: "Reseats at", figure: none("the valve was not seen to reseat") },
        ],
      },
    ]),
  ).toEqual([
    "Fuel a lap, fire and boiler (evaporation): no fuel was recorded.",
    "Steaming rate (raising, standing): the glass was not read.",
    "Safety valve (reseats at): the valve was not seen to reseat.",
  ]);
});

test("where the page is full the last of them are left to the screen, and counted", () => {
  const three = ["One.", "Two.", "Three."];
  expect(inParagraph(three, 0)).toBe("One. Two. Three.");
  expect(inParagraph(three, 1)).toBe("One. Two. 1 more reason on the screen.");
  expect(inParagraph(three, 3)).toBe("3 reasons on the screen.");
  expect(inParagraph([], 0)).toBe("");
});
