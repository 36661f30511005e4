import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { LogbookFile } from "../src/logbook/logbook-file.ts";
import { problemLine } from "../src/logbook/problems.ts";
import { readLogbook } from "../src/logbook/read-logbook.ts";
import { bringIn } from "./exchange/logbook-in.ts";
import type { Store } from "./store/store.ts";

/** The invented engine that a new owner finds in the shed. */
export const demonstrationFile = fileURLToPath(
  new URL("../sample-data/demonstration.logbook.json", import.meta.url),
);

export const demonstrationThere = (store: Store): boolean =>
  store.locomotives.all().some((kept) => kept.demonstration);

/** Adds the demonstration engine with its steamings. Null, or in one line why it could not. */
export function addDemonstration(store: Store, file: string): string | null {
  if (!existsSync(file)) return "this copy of the program has no demonstration engine";
  const reading = readDemonstration(file);
  if (typeof reading === "string") return reading;
  const [problem] = bringIn(store, reading, { demonstration: true }).problems;
  if (problem !== undefined) return `the demonstration engine is not added: ${problemLine(problem)}`;
  store.settings.put("demonstration", "shown");
  return null;
}

function readDemonstration(file: string): LogbookFile | string {
  const reading = readLogbook(readFileSync(file, "utf8"));
  if (reading.ok) return reading.value;
  const [problem] = reading.problems;
  return `the demonstration engine cannot be read: ${problem === undefined ? "" : problemLine(problem)}`;
}

/** On the first run of an empty shed, and only then: once removed it does not come back by itself. */
export function welcome(store: Store, file = demonstrationFile): string | null {
  const isFirst = store.settings.get("demonstration") === undefined && store.locomotives.all().length === 0;
  return isFirst ? addDemonstration(store, file) : null;
}

/** Removes all that came with the demonstration; an engine that the owner has steamed stays, as the owner's. */
export function removeDemonstration(store: Store): void {
  store.atOnce(() => {
    store.steamings.removeDemonstration();
    store.services.removeDemonstration();
    for (const { locomotive, demonstration } of store.locomotives.all()) {
      if (!demonstration) continue;
      if (store.steamings.ofLocomotive(locomotive.id).length > 0) {
        store.locomotives.unmarkDemonstration(locomotive.id);
      } else store.locomotives.remove(locomotive.id);
    }
    store.settings.put("demonstration", "removed");
  });
}
