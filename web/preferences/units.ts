import { signal } from "@preact/signals";
import { keep, kept } from "./kept.ts";

/** What the reader may have in a unit of their own choosing. Everything is stored and sent in the first. */
export const unitChoices = {
  pressure: ["bar", "psi"],
  volume: ["ml", "fl oz"],
  length: ["mm", "in"],
  temperature: ["°C", "°F"],
} as const;

export type Quantity = keyof typeof unitChoices;
export type ChosenUnits = { [Q in Quantity]: (typeof unitChoices)[Q][number] };

function startingUnits(): ChosenUnits {
  const stored = kept("units");
  const pick = <Unit extends string>(choices: readonly [Unit, Unit]): Unit =>
    choices.find((choice) => stored.includes(choice)) ?? choices[0];
  return {
    pressure: pick(unitChoices.pressure),
    volume: pick(unitChoices.volume),
    length: pick(unitChoices.length),
    temperature: pick(unitChoices.temperature),
  };
}

export const units = signal<ChosenUnits>(startingUnits());

export function chooseUnit<Q extends Quantity>(quantity: Q, unit: ChosenUnits[Q]): void {
  units.value = { ...units.value, [quantity]: unit };
  keep("units", Object.values(units.value));
}
