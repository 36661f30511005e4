/**
 * What each fault usually shows, as the chance that the sign is there if the fault is. All of this table is common
 * practice of the trade put in numbers by estimate: no trial stands behind it. A sign that a fault is not named with
 * shows by accident with CHANCE_BY_ACCIDENT.
 */
export const CHANCE_BY_ACCIDENT = 0.06;

export const signWords = {
  "gland-seen": "a gland drips or is seen to leak",
  "clack-seen": "a clack drips or is seen to leak",
  "regulator-seen": "the regulator drips or is seen to pass",
  "valve-seen": "the safety valve is seen to weep",
  "pump-seen": "the pump drips or is seen to leak",
  "shut-in-falls": "pressure falls faster than usual when shut in",
  "shut-in-water": "water is lost when shut in",
  "fall-stops": "shut in, she falls fast at first and then slowly",
  "water-up": "water a lap or the missing quantity is up",
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

export interface Fault {
  name: string;
  /** how often it is the trouble, before anything is known */
  usual: number;
  shows: Partial<Record<Sign, number>>;
  /** the check that tells it from the others */
  check: string;
}

export const faults: readonly Fault[] = [
  {
    name: "gland",
    usual: 0.2,
    shows: { "gland-seen": 0.92, "water-up": 0.6, "pressure-sags": 0.4, "level-falls-pumping": 0.3 },
    check:
      "Run her on blocks and hold a cold mirror or cloth to each gland: a gland pulses with the wheel, and nothing shows shut in.",
  },
  {
    name: "clack",
    usual: 0.15,
    shows: {
      "clack-seen": 0.75,
      "shut-in-water": 0.85,
      "shut-in-falls": 0.5,
      "feed-pipe-hot": 0.8,
      "pump-weak": 0.15,
      "water-up": 0.6,
      "water-to-fuel-up": 0.5,
    },
    check:
      "Shut in hot for ten minutes with a thermometer strapped to the feed pipe: a passing clack warms it.",
  },
  {
    name: "regulator",
    usual: 0.12,
    shows: { "regulator-seen": 0.75, "shut-in-falls": 0.8, "shut-in-water": 0.6, creeps: 0.5 },
    check:
      "Shut in hot with the cylinder drains open and the regulator shut: steam at the drains, or an engine that creeps, is the regulator.",
  },
  {
    name: "safety valve",
    usual: 0.12,
    shows: {
      "lifts-early": 0.9,
      "valve-seen": 0.6,
      "shut-in-falls": 0.4,
      "fall-stops": 0.4,
      "shut-in-water": 0.3,
    },
    check:
      "Raise her slowly with an eye on the dial, the fire ready to drop, and never beyond what your code allows: note where the valve lifts and reseats; one that weeps stops lower than it should.",
  },
  {
    name: "blow-by",
    usual: 0.1,
    shows: { "water-up": 0.85, "pressure-sags": 0.55, "level-falls-pumping": 0.4 },
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
    usual: 0.13,
    shows: {
      "pump-weak": 0.92,
      "level-falls-pumping": 0.9,
      "pump-seen": 0.25,
      "water-up": 0.4,
      "water-to-fuel-up": 0.4,
    },
    check:
      "By-pass shut, read the glass over ten minutes of even running: a pump that fills its by-pass but not the boiler has a ball or ram at fault; feel nothing, measure.",
  },
  {
    name: "fuel",
    usual: 0.05,
    shows: { "pressure-sags": 0.6 },
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
