import { expect, test } from "vitest";
import { placeWords } from "../../web/pages/tank-bench/place-words.ts";

test.each([
  ["tanks.water[1].deadDepth", "tank 2, dead depth"],
  ["tanks.water[0].cutOuts[2].along", "tank 1, along"],
  ["tanks.space.loadingGauge", "loading gauge"],
  ["tanks.lagging.conductivityWPerMK", "conductivity"],
  ["plan.trainMassKg", "train mass"],
  ["plan", "plan"],
])("%s is said as %s", (path, words) => {
  expect(placeWords(path)).toBe(words);
});
