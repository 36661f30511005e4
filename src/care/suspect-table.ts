import type { Fitting } from "../logbook/locomotive.ts";

/**
 * What each fault usually shows, as the chance that the sign is there if the fault is. All of this table is common
 * practice of the trade put in numbers by estimate: no trial stands behind it. A sign that a fault is not named with
 * it shows as often as an engine with nothing the matter does: by accident.
 */
const BY_ACCIDENT = 0.05;
const oftenerOrSeldomer: Partial<Record<Sign, number>> = {
  // what is seen to leak leaks
  "gland-seen": 0.02,
  "clack-seen": 0.02,
  "regulator-seen": 0.02,
  "valve-seen": 0.02,
  "pump-seen": 0.02,
  // many are filled so, and most of them do not prime
  "glass-high": 0.4,
};
export const chanceByAccident = (sign: Sign): number => oftenerOrSeldomer[sign] ?? BY_ACCIDENT;
export const chanceOf = ({ shows }: Fault, sign: Sign): number => shows[sign] ?? chanceByAccident(sign);

export const signWords = {
  "gland-seen": "a gland drips or is seen to leak",
  "clack-seen": "a clack drips or is seen to leak",
  "regulator-seen": "the regulator drips or is seen to pass",
  "valve-seen": "the safety valve is seen to weep",
  "pump-seen": "the pump drips or is seen to leak",
  "shut-in-falls":
    "pressure falls faster than usual when shut in, or more heat is lost standing than at her best",
  "shut-in-water": "water is lost when shut in",
  "fall-stops": "shut in, she falls fast at first and then slowly",
  "water-up": "water a lap or the missing quantity is up at like pressure and speed",
  "lifts-early": "the safety valve lifts early or reseats late",
  "pump-weak": "the axle pump delivers less",
  "level-falls-pumping": "the glass rises less or falls with the by-pass shut",
  "water-to-fuel-up": "more water goes for the same fuel than usual",
  "pressure-sags": "pressure while running is lower than usual",
  creeps: "laps or turns are logged with the regulator shut",
  "feed-pipe-hot": "the feed is hot when shut in",
  "glass-high": "she ran with the glass above three quarters",
  "level-low": "the glass went below the lowest level",
} as const;
export type Sign = keyof typeof signWords;

/** What no trouble is, but makes one likelier. */
export const circumstances: readonly Sign[] = ["glass-high"];

/** How each sign that a person can look for is looked for. */
export const checkOfSign: Partial<Record<Sign, string>> = {
  "gland-seen": "look at each gland while she runs, at working pressure, and catch what drips",
  "clack-seen": "look at the clack and its union at working pressure, with the pump at rest",
  "regulator-seen": "look at the regulator's gland and the drains at working pressure, regulator shut",
  "valve-seen": "look at the safety valve well below its lift, and see whether it feathers",
  "pump-seen": "look at the pump's gland and unions while she runs with the by-pass shut",
  "shut-in-falls":
    "shut her in hot, fire out, and read the dial each minute for ten minutes: see whether it falls faster than it used to",
  "shut-in-water": "read the glass at the start and end of ten minutes shut in hot: see whether water goes",
  "lifts-early": "note where the safety valve lifts and reseats: see whether either is lower than it was",
  "pump-weak":
    "measure what the water tank loses to the pump in ten laps: see whether it is less than it was",
  "level-falls-pumping":
    "read the glass over ten minutes of even running with the by-pass shut: see whether it rises less than it did",
  creeps: "shut in hot, leave her on level track with the regulator shut: see whether she creeps",
  "feed-pipe-hot":
    "shut her in hot for ten minutes with a thermometer strapped to the feed pipe: see whether it warms",
};

export interface Fault {
  name: string;
  /** of the fittings whose service starts it afresh; none for what is no fitting */
  kind?: Fitting["kind"];
  /** how often it is the trouble, before anything is known */
  usual: number;
  shows: Partial<Record<Sign, number>>;
  /** the check that tells it from the others */
  check: string;
}

export const faults: readonly Fault[] = [
  {
    name: "gland",
    kind: "gland",
    usual: 0.2,
    shows: { "gland-seen": 0.92, "water-up": 0.5, "pressure-sags": 0.35, "level-falls-pumping": 0.25 },
    check:
      "Run her slowly on blocks and hold a cold mirror near each gland, hands clear of the motion: a gland pulses with the wheel, and nothing shows shut in.",
  },
  {
    name: "clack",
    kind: "clack",
    usual: 0.15,
    shows: {
      "clack-seen": 0.75,
      "shut-in-water": 0.85,
      "shut-in-falls": 0.5,
      "feed-pipe-hot": 0.8,
      "pump-weak": 0.15,
      "water-up": 0.6,
      "water-to-fuel-up": 0.5,
      "pressure-sags": 0.25,
    },
    check:
      "Shut in hot for ten minutes with a thermometer strapped to the feed pipe: a passing clack warms it.",
  },
  {
    name: "regulator",
    kind: "regulator",
    usual: 0.12,
    shows: {
      "regulator-seen": 0.75,
      "shut-in-falls": 0.8,
      "shut-in-water": 0.6,
      creeps: 0.5,
      "pressure-sags": 0.25,
    },
    check:
      "Shut in hot with the cylinder drains open and the regulator shut: steam at the drains, or an engine that creeps, is the regulator.",
  },
  {
    name: "safety valve",
    kind: "safety-valve",
    usual: 0.12,
    shows: {
      "lifts-early": 0.9,
      "valve-seen": 0.6,
      "shut-in-falls": 0.4,
      "fall-stops": 0.4,
      "shut-in-water": 0.3,
      "pressure-sags": 0.4,
    },
    check:
      "Raise her slowly with an eye on the dial, the fire ready to drop, and never beyond what your code allows: note where the valve lifts and reseats; one that weeps stops lower than it should.",
  },
  {
    name: "blow-by",
    usual: 0.1,
    shows: { "water-up": 0.75, "pressure-sags": 0.75, "level-falls-pumping": 0.4 },
    check:
      "Wheels blocked, regulator just open, one cylinder at a time: steady steam at the exhaust is past a valve or piston. Nothing shows shut in, and no gland drips.",
  },
  {
    name: "priming",
    usual: 0.1,
    shows: { "water-to-fuel-up": 0.85, "water-up": 0.75, "glass-high": 0.5, "level-falls-pumping": 0.4 },
    check:
      "Start the next run with the glass at half: if the water a lap goes down, she primed. Look for a wet chimney.",
  },
  {
    name: "pump",
    kind: "pump",
    usual: 0.13,
    shows: {
      "pump-weak": 0.92,
      "level-falls-pumping": 0.9,
      "pump-seen": 0.25,
      "water-up": 0.4,
      "water-to-fuel-up": 0.4,
    },
    check:
      "By-pass shut, read the glass over ten minutes of even running: a pump that fills its by-pass but not the boiler has a ball or ram at fault; measure it, and feel for nothing by hand.",
  },
  {
    name: "fuel",
    usual: 0.05,
    shows: { "pressure-sags": 0.5 },
    check:
      "Weigh the fuel in and what remains: a slow fall of pressure with the glass well up is the fire's.",
  },
  {
    name: "low water",
    usual: 0.03,
    shows: { "level-low": 0.9, "pressure-sags": 0.3 },
    check:
      "Read the glass each two minutes: a fast fall of pressure with little in the glass is the water's.",
  },
];
