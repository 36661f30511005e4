import { signal } from "@preact/signals";
import { keep, kept } from "./kept.ts";

/** How this phone's owner likes the Footplate. */
export interface FootplateChoices {
  hand: "right" | "left";
  sound: boolean;
  tick: boolean;
  buzz: boolean;
  /** minutes after which a reading is due; 0: never */
  pressureDueMin: number;
  waterDueMin: number;
  /** how the gauge is divided, in the unit that is shown */
  pressureDivision: { bar: number; psi: number };
  levelDivisionMm: number;
  levelBy: "glass" | "figures" | "quarters";
}

const usual: FootplateChoices = {
  hand: "right",
  sound: true,
  tick: true,
  buzz: true,
  pressureDueMin: 2,
  waterDueMin: 3,
  pressureDivision: { bar: 0.1, psi: 1 },
  levelDivisionMm: 0.5,
  levelBy: "glass",
};

function starting(): FootplateChoices {
  try {
    const stored: unknown = JSON.parse(kept("footplate")[0] ?? "{}");
    return { ...usual, ...(stored as Partial<FootplateChoices>) };
  } catch {
    return usual;
  }
}

export const footplate = signal<FootplateChoices>(starting());

export function chooseFootplate(chosen: Partial<FootplateChoices>): void {
  footplate.value = { ...footplate.value, ...chosen };
  keep("footplate", [JSON.stringify(footplate.value)]);
}
