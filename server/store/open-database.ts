import { mkdirSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import type { Connection } from "./connection.ts";
import { migrate } from "./migrate.ts";
import { migrations } from "./migrations.ts";
import { StoreError } from "./store-error.ts";

export const databaseName = "lapwater.sqlite";
/** Marks the file as ours ("LAPW"), so that no other program's database is taken for a logbook. */
export const applicationId = 0x4c415057;

/** What every connection must be set to: `[pragma, value to set, value it must then answer]`. */
const settings = [
  ["journal_mode", "WAL", "wal"],
  ["synchronous", "FULL", 2],
  ["trusted_schema", "OFF", 0],
  ["foreign_keys", "ON", 1],
] as const;

/** Opens the database of a data folder, makes it if there is none, and brings it to this program's version. */
export function openDatabase(folder: string): Connection {
  const file = join(folder, databaseName);
  let database: Connection | undefined;
  try {
    mkdirSync(folder, { recursive: true });
    database = new Database(file);
    set(database, file);
    migrate(database, migrations, folder);
    return database;
  } catch (error) {
    database?.close();
    throw inOneLine(error, folder);
  }
}

function set(database: Connection, file: string): void {
  const mark = database.pragma("application_id", { simple: true });
  const tables = database.prepare("SELECT count(*) FROM sqlite_schema").pluck().get();
  if (mark !== applicationId && tables !== 0) {
    throw new StoreError(`${file} is a database of another program`);
  }
  for (const [name, value, wanted] of settings) {
    database.pragma(`${name} = ${value}`);
    const came = database.pragma(name, { simple: true });
    if (came !== wanted) throw new StoreError(`${file}: ${name} is ${String(came)}, wanted ${wanted}`);
  }
  if (mark !== applicationId) database.pragma(`application_id = ${applicationId}`);
}

function inOneLine(error: unknown, folder: string): StoreError {
  if (error instanceof StoreError) return error;
  const detail = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
  return new StoreError(`the data folder ${folder} cannot be used: ${detail}`);
}
