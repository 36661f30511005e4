import type { Fuel } from "../../logbook/locomotive.ts";
import { burningOf } from "../fuel/fuel-burning.ts";

/** What goes through the surface once she is hot, against the useful heat of the mean second (our estimate). */
export const LOSS = 0.2;

/** Steam that the fire makes at rest, beyond what makes up for the surface's loss, as a part of that made under way. */
export const madeAtRest = (fuel: Fuel): number => (1 + LOSS) * burningOf(fuel).against.standing - LOSS;
