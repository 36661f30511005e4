import { hazelholt, marlcombe } from "./engines-coal.ts";
import { ferrymoor, teasel } from "./engines-gas.ts";
import { pennywort, quillet } from "./engines-gas-small.ts";
import { bramling, coldbrook, sedge } from "./engines-spirit.ts";
import type { EnginePlan } from "./nature.ts";

/** Invented engines, from a 60 ml pot boiler to one that carries passengers. */
export const engines: readonly [EnginePlan, ...EnginePlan[]] = [
  sedge,
  pennywort,
  bramling,
  quillet,
  teasel,
  coldbrook,
  ferrymoor,
  hazelholt,
  marlcombe,
];
