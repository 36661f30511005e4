import type { Fitting } from "../logbook/locomotive.ts";

/**
 * What a fitting may pass at working pressure, g/min, where its owner set no limit: common practice, about what empties
 * a small boiler noticeably sooner. None for what holds no steam.
 */
export const usualLimits: Readonly<Record<Fitting["kind"], number | null>> = {
  gland: 0.5,
  clack: 0.4,
  regulator: 0.4,
  "safety-valve": 0.4,
  joint: 0.2,
  "gauge-glass": 0.2,
  pump: 0.5,
  lubricator: 0.2,
  burner: null,
  other: 0.5,
};

export interface Limit {
  gPerMin: number;
  /** set by the owner, or taken from the table above */
  own: boolean;
}

export function limitOf(fitting: Fitting): Limit | null {
  if (fitting.limitGPerMin !== undefined) return { gPerMin: fitting.limitGPerMin, own: true };
  const usual = usualLimits[fitting.kind];
  return usual === null ? null : { gPerMin: usual, own: false };
}
