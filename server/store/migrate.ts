import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Connection } from "./connection.ts";
import { StoreError } from "./store-error.ts";

/** One step of the database's form: SQL that takes it from the version before to the next. */
export interface Migration {
  version: number;
  sql: string;
}

/** The version a database is at (PRAGMA user_version). */
export const versionOf = (database: Connection): number =>
  Number(database.pragma("user_version", { simple: true }));

/**
 * Brings a database to the last version of the list, a transaction a step.
 * A database that holds something is copied whole into `folder`/backups before the first step.
 * @throws StoreError where it is newer than the list
 */
export function migrate(database: Connection, migrations: readonly Migration[], folder: string): void {
  const present = versionOf(database);
  const wanted = migrations.at(-1)?.version ?? 0;
  if (present > wanted) {
    throw new StoreError(
      `${database.name} is of version ${present}, newer than this program's ${wanted}: use the newer program`,
    );
  }
  const steps = migrations.filter((step) => step.version > present);
  if (steps.length === 0) return;
  if (present > 0) backUpBeforeUpgrade(database, present, folder);
  for (const step of steps) {
    database.transaction(() => {
      database.exec(step.sql);
      database.pragma(`user_version = ${step.version}`);
    })();
  }
}

function backUpBeforeUpgrade(database: Connection, version: number, folder: string): void {
  const backups = join(folder, "backups");
  mkdirSync(backups, { recursive: true });
  const stamp = new Date().toISOString().replaceAll(/[-:]|\.\d+/g, "");
  database.prepare("VACUUM INTO ?").run(join(backups, `before-upgrade-from-${version}-${stamp}.sqlite`));
}
