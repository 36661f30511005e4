import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";
import { fireAlone } from "./fuel/fuel-read.ts";
import { inOrder, type Sources } from "./log-in-order.ts";
import { dialReadings } from "./pressure/pressure-readings.ts";
import { noneLogged } from "./water/logged-water.ts";

/** A steaming of which all was written down by hand, as on the Footplate. */
export type ByHand = Steaming & { traces?: never };

/**
 * The same of what a hand wrote down alone, so that a phone need not carry what loggers are read with, nor what tells how fuel
 * burnt: of weighings, which no phone writes down, those tell that have no fire between them.
 */
export const sourcesByHand = (locomotive: Locomotive, steaming: ByHand): Sources =>
  inOrder(locomotive, steaming, {
    pressures: dialReadings,
    water: noneLogged,
    fuel: fireAlone,
    cameDown: () => null,
  });
