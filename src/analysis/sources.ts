import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";
import { type FuelCourse, fuelCourse } from "./fuel/fuel-course.ts";
import { type Way, wayOf } from "./laps/way.ts";
import { inOrder, type Sources } from "./log-in-order.ts";
import type { PressureReading } from "./pressure/pressure-points.ts";
import { pressureReadings } from "./pressure/pressure-readings.ts";
import { cameDown } from "./state/came-down.ts";
import { bentWhereSlackened } from "./state/slackened-rise.ts";
import { loggedWater } from "./water/logged-water.ts";

export type { Sources } from "./log-in-order.ts";

/** The same with how the fuel burnt and how far she went, or why that is not known: everything the sheet is worked out from. */
export type SheetSources = Sources & { fuel: FuelCourse; way: Way };

/** @param between what the boiler's thermometer tells while the dial was left unread */
export function sourcesOf(
  locomotive: Locomotive,
  steaming: Steaming,
  untilS?: number,
  between: readonly PressureReading[] = [],
): SheetSources {
  const logged = inOrder(
    locomotive,
    steaming,
    {
      pressures: (...read) => pressureReadings(...read, steaming, between),
      water: loggedWater,
      fuel: fuelCourse,
      cameDown,
    },
    untilS,
  );
  const levelLogged = logged.logged.readings.some(({ of }) => of === "level");
  return {
    ...logged,
    ...(levelLogged ? { stateAt: bentWhereSlackened(logged) } : {}),
    way: wayOf(logged.timeline, logged.counted),
  };
}
