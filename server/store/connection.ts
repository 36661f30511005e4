import type Database from "better-sqlite3";

export type Connection = Database.Database;
