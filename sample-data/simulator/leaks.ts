/**
 * What a leaking fitting passes at a pressure. Flow is stated at working pressure and carried to others.
 *
 * Steam: proportional to absolute pressure while choked; below the critical ratio 0.577 (dry saturated steam,
 * n = 1.135) the nozzle equation of Saint-Venant and Wantzel, which meets the choked flow at that ratio.
 * Hot water: root of gauge pressure (flashing in the leak left out; it would slow the flow).
 */
export type LeakSide =
  /** from the steam space, always */
  | "steam"
  /** from below the water, always */
  | "water"
  /** behind the regulator: only while it is open, at the pressure of the steam chest */
  | "chest";

export interface Leak {
  fitting: string;
  side: LeakSide;
  gPerMinAtWorkingPressure: number;
}

const EXPANSION = 1.135;
const CRITICAL_RATIO = 0.577;

/** Steam flow through a small hole relative to absolute pressure, 1 while choked, 0 at no difference. */
export function chokedShare(pressurePa: number, outsidePa: number): number {
  const ratio = outsidePa / pressurePa;
  if (ratio >= 1) return 0;
  if (ratio <= CRITICAL_RATIO) return 1;
  return Math.sqrt(nozzle(ratio) / nozzle(CRITICAL_RATIO));
}

const nozzle = (ratio: number): number => ratio ** (2 / EXPANSION) - ratio ** ((EXPANSION + 1) / EXPANSION);

/** kg/s at `pressurePa` (absolute) from the flow at the working pressure (absolute). */
export function leakKgPerS(leak: Leak, pressurePa: number, workingPa: number, atmospherePa: number): number {
  if (pressurePa <= atmospherePa) return 0;
  const atWorking = leak.gPerMinAtWorkingPressure / 60_000;
  if (leak.side === "water") {
    return atWorking * Math.sqrt((pressurePa - atmospherePa) / (workingPa - atmospherePa));
  }
  return (
    (atWorking * (pressurePa * chokedShare(pressurePa, atmospherePa))) /
    (workingPa * chokedShare(workingPa, atmospherePa))
  );
}
