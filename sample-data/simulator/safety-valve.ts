/**
 * Safety valve: shut until the pressure reaches its lift, then open, wider the further above reseat, until the
 * pressure falls to reseat. Full flow (at lift pressure and above) goes with absolute pressure.
 */
export interface SafetyValve {
  liftBarG: number;
  reseatBarG: number;
  /** flow at lift pressure, fully open */
  capacityGPerMin: number;
}

/** Share of full opening that it keeps just before it drops onto its seat. */
const LEAST_OPENING = 0.15;

export interface SafetyValveState {
  open: boolean;
  kgPerS: number;
}

export function safetyValveStep(
  valve: SafetyValve,
  wasOpen: boolean,
  pressurePa: number,
  atmospherePa: number,
): SafetyValveState {
  const barG = (pressurePa - atmospherePa) / 1e5;
  const open = wasOpen ? barG > valve.reseatBarG : barG >= valve.liftBarG;
  if (!open) return { open, kgPerS: 0 };
  const lifted = (barG - valve.reseatBarG) / (valve.liftBarG - valve.reseatBarG);
  const opening = Math.min(1, Math.max(LEAST_OPENING, lifted));
  const liftPa = valve.liftBarG * 1e5 + atmospherePa;
  return { open, kgPerS: ((valve.capacityGPerMin / 60_000) * opening * pressurePa) / liftPa };
}
