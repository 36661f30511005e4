import type { Boiler } from "../../../src/logbook/locomotive.ts";
import { stepped } from "./pad-spec.ts";

/** The glass as it is drawn, in the unit that is shown: from the bottom nut to the top nut. */
export interface DrawnGlass {
  bottomNut: number;
  topNut: number;
  lowest: number;
  highest: number;
}

/**
 * The glass reads from its zero at the bottom nut; its top nut is taken as far above the highest level as the
 * bottom nut is below the lowest, as the log does not say where it is.
 */
export function glassOf(boiler: Boiler, shownOfMm: (mm: number) => number): DrawnGlass {
  const bottomMm = Math.min(0, boiler.lowestLevelMm);
  const topMm = boiler.highestLevelMm + Math.max(boiler.lowestLevelMm - bottomMm, 1);
  return {
    bottomNut: shownOfMm(bottomMm),
    topNut: shownOfMm(topMm),
    lowest: shownOfMm(boiler.lowestLevelMm),
    highest: shownOfMm(boiler.highestLevelMm),
  };
}

interface Properties {
  glass: DrawnGlass;
  value: number | null;
  ghost: boolean;
  step: number;
  unit: string;
  onValue: (value: number) => void;
}

const onStep = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/** A tap sets the water to where it was tapped. */
export function Glass({ glass, value, ghost, step, unit, onValue }: Properties) {
  const span = glass.topNut - glass.bottomNut;
  const upPart = (level: number) => Math.min(1, Math.max(0, (level - glass.bottomNut) / span));
  const fromTop = (level: number) => `${100 * (1 - upPart(level))}%`;
  const tap = (event: MouseEvent & { currentTarget: HTMLElement }) => {
    const box = event.currentTarget.getBoundingClientRect();
    const part = 1 - (event.clientY - box.top) / box.height;
    onValue(onStep(glass.bottomNut + Math.min(1, Math.max(0, part)) * span, step));
  };
  return (
    <div class="glass-frame">
      <span class="nut">top nut</span>
      <div
        class={`glass ${ghost ? "ghost" : ""}`}
        role="slider"
        tabIndex={0}
        aria-label="Water in the glass"
        aria-valuemin={glass.bottomNut}
        aria-valuemax={glass.topNut}
        aria-valuenow={value ?? glass.bottomNut}
        aria-valuetext={value === null ? "not set" : `${value} ${unit}`}
        onClick={tap}
        onKeyDown={(event) => {
          const by = event.key === "ArrowUp" ? 1 : event.key === "ArrowDown" ? -1 : null;
          if (by === null) return;
          event.preventDefault();
          event.stopPropagation();
          onValue(stepped(value ?? glass.bottomNut, step, by));
        }}
      >
        {value !== null && <span class="glass-water" style={{ height: `${100 * upPart(value)}%` }} />}
        <span class="glass-line" style={{ top: fromTop(glass.highest) }}>
          highest
        </span>
        <span class="glass-line lowest" style={{ top: fromTop(glass.lowest) }}>
          lowest
        </span>
      </div>
      <span class="nut">bottom nut</span>
    </div>
  );
}

const quarters = [
  [1, "Full, at the top nut"],
  [0.75, "Three quarters"],
  [0.5, "Half"],
  [0.25, "A quarter"],
  [0, "Out of sight, at the bottom nut"],
] as const;

export function Quarters({ glass, step, onValue }: Pick<Properties, "glass" | "step" | "onValue">) {
  const span = glass.topNut - glass.bottomNut;
  return (
    <div class="quarters">
      {quarters.map(([part, name]) => (
        <button
          key={name}
          type="button"
          class="key"
          onClick={() => onValue(onStep(glass.bottomNut + part * span, step))}
        >
          {name}
        </button>
      ))}
    </div>
  );
}
