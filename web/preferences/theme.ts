import { effect, signal } from "@preact/signals";
import { keep, kept } from "./kept.ts";

export const themes = ["sun", "normal", "night"] as const;
export type Theme = (typeof themes)[number];

export const themeNames: Record<Theme, string> = { sun: "bright sun", normal: "normal", night: "night" };

function startingTheme(): Theme {
  const stored = themes.find((theme) => kept("theme").includes(theme));
  if (stored !== undefined) return stored;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "normal";
}

export const theme = signal<Theme>(startingTheme());

export function chooseTheme(chosen: Theme): void {
  theme.value = chosen;
  keep("theme", [chosen]);
}

/** Paper is white whatever the screen is: a print is made in the normal colours. */
export const printing = signal(false);

export function followTheme(): void {
  effect(() => {
    document.documentElement.dataset.theme = printing.value ? "normal" : theme.value;
  });
  addEventListener("beforeprint", () => {
    printing.value = true;
  });
  addEventListener("afterprint", () => {
    printing.value = false;
  });
}
