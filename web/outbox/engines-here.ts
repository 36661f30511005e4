import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { FootplateAnswer } from "../api/shapes.ts";
import { shelf } from "./database.ts";

/** What this phone knows of an engine: enough to begin a steaming of hers without the server. */
export interface EngineHere {
  engine: Locomotive;
  demonstration: boolean;
  /** the particulars of her last steaming, to be offered again */
  last: FootplateAnswer["engines"][number]["last"];
}

export const enginesHere = async (): Promise<EngineHere[]> =>
  ((await (await shelf("kept")).get("engines")) as EngineHere[] | undefined) ?? [];

/** Keeps the engines that the server told of, for when it does not answer. */
export async function keepEngines({ engines }: FootplateAnswer): Promise<EngineHere[]> {
  const here = engines.map(({ locomotive: engine, demonstration, last }) => ({
    engine,
    demonstration,
    last,
  }));
  await (await shelf("kept", "readwrite")).put(here, "engines");
  return here;
}
