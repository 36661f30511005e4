import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Leak } from "./leaks.ts";
import type { Wander } from "./random.ts";
import type { SafetyValve } from "./safety-valve.ts";

/** An invented engine: what its owner has written down, and what only nature knows. */
export interface EnginePlan {
  /** without `instruments`, which come with the steaming */
  locomotive: Locomotive;
  nature: EngineNature;
}

export interface EngineNature {
  /** through the surface at working pressure in still air of 20 °C */
  lossW: number;
  fire: FireNature;
  motion: MotionNature;
  safetyValve: SafetyValve;
  leaks: readonly Leak[];
  /** steam taken by the blower at working pressure while on; 0 for an engine without one */
  blowerGPerMin: number;
  /** share of ram x stroke that an axle pump delivers; 0 without a pump */
  pumpEfficiency: number;
  /** part of the gauge glass that can be seen, mm; null for an engine without a glass */
  glass: { fromMm: number; toMm: number } | null;
}

export interface FireNature {
  /** burning at full setting and full draught */
  burnGPerMin: number;
  /** share of the fuel's lower heating value that reaches the boiler at that rate */
  transfer: number;
  wander: Wander;
  /** lowest setting as a share of the full one; 1 for a fire that cannot be turned down */
  lowest: number;
  /** share of full draught with engine and blower at rest; 1 for spirit and gas */
  idleDraught: number;
  /** fall of the burning rate as a gas tank cools, approached over about 15 min; 0 for others */
  tankCooling: number;
  /** time in which the burning dies after the fire is put out; coals glow on */
  diesS: number;
}

export interface MotionNature {
  /** usual speed on the level at working pressure */
  speedMPerS: number;
  engineMassKg: number;
  /** rolling resistance of engine and train as a share of weight, where the train does not say */
  resistanceRatio: number;
  /** mean effective pressure to turn the engine over */
  frictionBar: number;
  /** steam condensed and leaked past in the cylinders, as a multiple of dry demand at usual speed */
  excess: number;
  /** of demand while running: hand, wind, oil, condensation */
  wander: Wander;
  /** of the excess from lap to lap, relative standard deviation */
  lapSd: number;
  /** the driver touches the regulator about this often, each time setting another speed */
  handEveryS: number;
  handSd: number;
  /** heat capacity of cylinders and steam chest, warmed afresh by steam after each stop */
  cylindersJPerK: number;
  /** steepest part of the track, rise over run; the lap has two ups and two downs */
  gradient: number;
}
