import type { ComponentChildren } from "preact";
import { type GlassReading, glassEndsMm } from "../../../src/logbook/glass-reading.ts";
import type { Boiler } from "../../../src/logbook/locomotive.ts";
import { rounded, stepped } from "./pad-spec.ts";

/** The glass as it is drawn, in the unit that is shown: from the bottom nut to the top nut. */
export interface DrawnGlass {
  bottomNut: number;
  topNut: number;
  lowest: number;
  highest: number;
}

export function glassOf(boiler: Boiler, shownOfMm: (mm: number) => number): DrawnGlass {
  const [bottomMm, topMm] = glassEndsMm(boiler);
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

const onStep = (value: number, step: number): number => rounded(Math.round(value / step) * step);

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
  [1, "Out of sight, above", "above"],
  [1, "Full, at the top nut", "quarters"],
  [0.75, "Three quarters", "quarters"],
  [0.5, "Half", "quarters"],
  [0.25, "A quarter", "quarters"],
  [0, "Out of sight, below", "below"],
] as const;

interface QuartersProperties extends Pick<Properties, "glass" | "step"> {
  /** the way out, under the thumb */
  children: ComponentChildren;
  onRead: (value: number, as: GlassReading) => void;
}

/** As good as an eye that looks once: kept with how it was read, so that nothing takes it for millimetres. */
export function Quarters({ glass, step, onRead, children }: QuartersProperties) {
  const span = glass.topNut - glass.bottomNut;
  return (
    <div class="quarters">
      {quarters.map(([part, name, as]) => (
        <button
          key={name}
          type="button"
          class="key"
          onClick={() => onRead(onStep(glass.bottomNut + part * span, step), as)}
        >
          {name}
        </button>
      ))}
      {children}
    </div>
  );
}
