import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { type ColdHoldSimulation, simulateColdHold } from "../simulator/cold-hold.ts";
import { simulate } from "../simulator/simulate.ts";
import type { Truth } from "../simulator/truth-types.ts";
import { coldHold } from "./cold-hold.ts";
import { conditionAt, services } from "./condition.ts";
import { outings } from "./outings.ts";
import { planOf } from "./season.ts";

export interface Demonstration {
  logbook: LogbookFile;
  truths: Readonly<Record<string, Truth>>;
  holdTruths: Readonly<Record<string, ColdHoldSimulation["truth"]>>;
}

/** The whole season in order: wear goes on by hours in steam, a service starts a fitting's clock afresh. */
export function demonstration(): Demonstration {
  const steamings: LogbookFile["steamings"] = [];
  const locomotives = new Map<string, LogbookFile["locomotives"][number]>();
  const truths: Record<string, Truth> = {};
  const servicedAtHours: Record<string, number> = {};
  let hours = 0;
  let before = "";
  for (const outing of outings) {
    for (const service of services) {
      if (service.at > before && service.at < outing.date) servicedAtHours[service.fittingId] = hours;
    }
    before = outing.date;
    const plan = planOf(outing, conditionAt(hours, servicedAtHours));
    const { locomotive, steaming, truth } = simulate(plan, outing.seed);
    locomotives.set(locomotive.id, locomotive);
    steamings.push(steaming);
    truths[steaming.id] = truth;
    hours += truth.curves.pressureBarG.filter((barG) => barG > 0.1).length / 3600;
  }
  const hold = simulateColdHold(coldHold.seed, coldHold);
  steamings.push(hold.steaming);
  steamings.sort((a, b) => (a.startedAt < b.startedAt ? -1 : 1));
  const logbook: LogbookFile = {
    format: "lapwater-logbook",
    version: 1,
    locomotives: [...locomotives.values()],
    steamings,
    services: [...services],
  };
  return { logbook, truths, holdTruths: { [hold.steaming.id]: hold.truth } };
}
