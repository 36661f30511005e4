import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import { addresses } from "../api/addresses.ts";
import { call } from "../api/client.ts";
import type { Shed } from "../api/shapes.ts";
import { shelf } from "./database.ts";

/** What this phone knows of an engine: enough to begin a steaming of hers without the server. */
export interface EngineHere {
  engine: Locomotive;
  demonstration: boolean;
  /** the particulars of her last steaming, to be offered again */
  last: Partial<Pick<SteamingHead, "conditions" | "track" | "train" | "purpose">>;
}

export const enginesHere = async (): Promise<EngineHere[]> =>
  ((await (await shelf("kept")).get("engines")) as EngineHere[] | undefined) ?? [];

/** Keeps the shed's engines. @throws Refusal */
export async function keepEngines(shed: Shed): Promise<EngineHere[]> {
  const engines = await Promise.all(
    shed.engines.map(async ({ locomotive, demonstration, steamings }): Promise<EngineHere> => {
      const latest = [...steamings].sort((a, b) => Date.parse(b.startedAt) - Date.parse(a.startedAt))[0];
      return {
        engine: locomotive,
        demonstration,
        last: latest === undefined ? {} : await particulars(latest.id),
      };
    }),
  );
  await (await shelf("kept", "readwrite")).put(engines, "engines");
  return engines;
}

async function particulars(steamingId: string): Promise<EngineHere["last"]> {
  const { conditions, track, train, purpose } = await call<SteamingHead>(
    "GET",
    addresses.steaming(steamingId),
  );
  return {
    purpose,
    ...(conditions === undefined ? {} : { conditions }),
    ...(track === undefined ? {} : { track }),
    ...(train === undefined ? {} : { train }),
  };
}
