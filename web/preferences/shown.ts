import {
  fahrenheitFromCelsius,
  inchesFromMm,
  psiFromBar,
  ukFluidOuncesFromMl,
} from "../../src/quantity/units.ts";
import { type ChosenUnits, type Quantity, units } from "./units.ts";

/** How a unit of the logbook is shown: shown = value x factor + offset. */
export interface Showing {
  unit: string;
  factor: number;
  offset: number;
}

const asStored = (unit: string): Showing => ({ unit, factor: 1, offset: 0 });

const by = (unit: string, conversion: (value: number) => number): Showing => ({
  unit,
  factor: (conversion(1000) - conversion(0)) / 1000,
  offset: conversion(0),
});

const simple: Record<string, Quantity> = { bar: "pressure", ml: "volume", mm: "length", "°C": "temperature" };

/** Steam for a turn of a small engine's wheel is a few thousandths of a gram. */
const perTurn: Showing = { unit: "mg a turn", factor: 1000, offset: 0 };

const conversions: Record<ChosenUnits[Quantity], Showing> = {
  bar: asStored("bar"),
  psi: by("psi", psiFromBar),
  ml: asStored("ml"),
  "fl oz": by("fl oz", ukFluidOuncesFromMl),
  mm: asStored("mm"),
  in: by("in", inchesFromMm),
  "°C": asStored("°C"),
  "°F": by("°F", fahrenheitFromCelsius),
};

/** How `unit` is shown to a reader with these choices; a unit such as ml/bar term by term. */
export function showing(unit: string, chosen: ChosenUnits = units.value): Showing {
  if (unit === "g/rev") return perTurn;
  const [over = "", under] = unit.split("/", 2);
  const top = showingOf(over, chosen);
  if (under === undefined) return top;
  const bottom = showingOf(under, chosen);
  return { unit: `${top.unit}/${bottom.unit}`, factor: top.factor / bottom.factor, offset: 0 };
}

function showingOf(unit: string, chosen: ChosenUnits): Showing {
  const quantity = simple[unit];
  return quantity === undefined ? asStored(unit) : conversions[chosen[quantity]];
}

export const toShown = (value: number, as: Showing): number => value * as.factor + as.offset;

/** Back to what is stored, free of the digits that the conversion alone brings. */
export const fromShown = (value: number, as: Showing): number =>
  as.factor === 1 && as.offset === 0 ? value : Number(((value - as.offset) / as.factor).toPrecision(9));
