/** What happened, as nature knows it: counters that only grow, sampled each second, and events. */
export const counterNames = [
  /** all that left the boiler but blow-down and draining */
  "drawnG",
  "fedG",
  /** of which by the axle pump */
  "pumpedG",
  "burntG",
  /** heat of the fire that reached the boiler */
  "fireJ",
  "lossJ",
  /** enthalpy of what was drawn and of what was fed */
  "carriedOffJ",
  "broughtJ",
  "distanceM",
  "revolutions",
  /** revolutions with the by-pass shut */
  "pumpRevolutions",
  "regulatorOpenS",
  /** drawn, by where it went */
  "engineG",
  "leaksG",
  "safetyValveG",
  "blowerG",
  /** dry steam that the swept volumes alone would have taken */
  "dryG",
  "workJ",
] as const;
export type CounterName = (typeof counterNames)[number];
export type Counters = Record<CounterName, number>;

/** State at the sample itself. */
export const stateNames = ["massG", "storedJ", "pressureBarG", "temperatureC", "waterM3", "fuelG"] as const;
export type StateName = (typeof stateNames)[number];

/** Sampled at 0, 1, 2 ... s since the start of the steaming; between samples a straight line. */
export type Curves = Record<CounterName | StateName, number[]>;

export type PhaseName = "raising" | "standing" | "running" | "shut-in";

export type Happening =
  | { kind: "fill"; atS: number; ml: number }
  | { kind: "fuel"; atS: number; amount: number; by: "g" | "ml" }
  | { kind: "fire"; atS: number; state: "lit" | "out"; byItself: boolean }
  | { kind: "regulator"; atS: number; state: "open" | "shut" }
  | { kind: "bypass"; atS: number; state: "open" | "shut" }
  | { kind: "blower"; atS: number; state: "on" | "off" }
  | { kind: "valve"; atS: number; state: "lifts" | "reseats" }
  | {
      kind: "feed";
      fromS: number;
      atS: number;
      by: "bottle" | "hand-pump";
      ml: number;
      strokes: number | null;
    }
  | { kind: "stage"; atS: number; name: PhaseName };

export interface Ledger {
  curves: Curves;
  /** by fitting: all that it has let out, g, sampled as the curves are */
  leakedG: Record<string, number[]>;
  happenings: Happening[];
  endS: number;
}

export const noCounters = (): Counters =>
  Object.fromEntries(counterNames.map((name) => [name, 0])) as Counters;

export const noCurves = (): Curves =>
  Object.fromEntries([...counterNames, ...stateNames].map((name) => [name, []])) as unknown as Curves;

/** Value of a curve at any time from 0 to the end. */
export function curveAt(curve: readonly number[], atS: number): number {
  const last = curve.length - 1;
  if (!(atS >= 0 && atS <= last)) throw new RangeError(`curveAt: ${atS} s, permitted 0 to ${last} s`);
  const before = Math.min(Math.floor(atS), last - 1);
  const from = curve[before] ?? Number.NaN;
  const to = curve[before + 1] ?? Number.NaN;
  return from + (to - from) * (atS - before);
}
