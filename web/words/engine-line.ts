import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { reading } from "./entry-words.ts";
import { fuelNames } from "./names.ts";

/** An engine in a line: "45 mm gauge, spirit, 4 bar, 2 cylinders 14.3 x 15.9 mm". */
export function engineLine(engine: Locomotive): string {
  return [
    engine.gaugeMm === undefined ? null : `${reading(engine.gaugeMm, "mm")} track`,
    fuelNames[engine.fuel.kind],
    `works at ${reading(engine.workingPressureBarG, "bar")}`,
    engine.cylinders === undefined
      ? null
      : `${engine.cylinders.count} ${engine.cylinders.count === 1 ? "cylinder" : "cylinders"}, ${reading(
          engine.cylinders.boreMm,
          "mm",
        )} by ${reading(engine.cylinders.strokeMm, "mm")}`,
  ]
    .filter((part) => part !== null)
    .join(", ");
}
