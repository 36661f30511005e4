import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { smallEngine } from "../../support/small-logbook.ts";

/** With a fitting that leaks steam, one that leaks water, and one that leaks neither. */
export const drippingEngine = (): Locomotive => ({
  ...smallEngine(),
  workingPressureBarG: 4,
  fittings: [
    { id: "gland", name: "Gland", kind: "gland" },
    { id: "clack", name: "Clack", kind: "clack" },
    { id: "burner", name: "Burner", kind: "burner" },
  ],
  instruments: { pressureReadingBar: 0.05, pressureBiasBar: 0.1, massReadingG: 0.1 },
});
