import { decimalsFor } from "../../src/quantity/digits.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { type Showing, showing } from "../preferences/shown.ts";
import { figureShown } from "./figure-shown.ts";
import { plain } from "./number.ts";

/** Whether a bare ratio is printed as it is or in per cent; or a figure in its own unit, whatever units are chosen. */
export type Form = "as-is" | "per-cent" | "own-unit";

/** A figure ready to print. */
export type FigureText =
  | {
      value: string;
      unit: string;
      /** "7.5 to 8.3"; null where nothing is in doubt */
      interval: string | null;
      parts: { name: string; plusMinus: string; share: number }[];
    }
  | { value: null; why: string };

const perCent: Showing = { unit: "%", factor: 100, offset: 0 };

export function showingFor(unit: string, form: Form): Showing {
  if (form === "per-cent") return perCent;
  if (unit === "1" || form === "own-unit") return { unit: unit === "1" ? "" : unit, factor: 1, offset: 0 };
  return showing(unit);
}

/** @param decimals of figures that are compared by eye, which have the same; else those that the figure is worth */
export function figureText(figure: Reported, form: Form = "as-is", decimals?: number): FigureText {
  if (figure.value === null) return figure;
  const shown = figureShown(figure, showingFor(figure.unit, form));
  if (shown.value === null) return shown;
  const half = (shown.hi95 - shown.lo95) / 2;
  const digits = decimals ?? decimalsFor(half, shown.value);
  const parts = shown.parts ?? [];
  const variance = parts.reduce((sum, part) => sum + part.u ** 2, 0);
  return {
    value: plain(shown.value, digits),
    unit: shown.unit,
    interval: half > 0 ? `${plain(shown.lo95, digits)} to ${plain(shown.hi95, digits)}` : null,
    parts: parts
      .map((part) => ({
        name: part.name,
        plusMinus: plain(part.u, Math.min(6, digits + 1)),
        share: variance > 0 ? part.u ** 2 / variance : 0,
      }))
      .sort((a, b) => b.share - a.share),
  };
}

/** For a sentence: "7.9 g (7.5 to 8.3)"; null where the figure is not to be had. */
export function figureInSentence(figure: Reported, form: Form = "as-is", decimals?: number): string | null {
  const text = figureText(figure, form, decimals);
  if (text.value === null) return null;
  return text.unit === "" ? text.value : `${text.value} ${text.unit}`;
}
