import { mkdirSync, renameSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import type { Connection } from "./connection.ts";
import { StoreError } from "./store-error.ts";

/**
 * Copies the whole database into `folder`/backups while it stays in use, and reads the copy through once
 * before it is called a backup.
 */
export async function backUp(database: Connection, folder: string, at: Date) {
  const backups = join(folder, "backups");
  mkdirSync(backups, { recursive: true });
  const file = join(backups, `lapwater-${at.toISOString().replaceAll(/[-:]/g, "")}.sqlite`);
  const unfinished = `${file}.unfinished`;
  try {
    await database.backup(unfinished);
    readThrough(unfinished);
    renameSync(unfinished, file);
  } finally {
    rmSync(unfinished, { force: true });
  }
  return { file, bytes: statSync(file).size };
}

function readThrough(file: string): void {
  const copy = new Database(file);
  try {
    // one file that stands alone, without a companion log
    copy.pragma("journal_mode = DELETE");
    const verdict = copy.pragma("integrity_check", { simple: true });
    if (verdict !== "ok") throw new StoreError(`the copy of the database is damaged: ${String(verdict)}`);
  } finally {
    copy.close();
  }
}
