import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { expect, test } from "vitest";
import { migrate, versionOf } from "../../../server/store/migrate.ts";
import { migrations } from "../../../server/store/migrations.ts";
import { databaseName, openDatabase } from "../../../server/store/open-database.ts";
import { openStore } from "../../../server/store/store.ts";
import { StoreError } from "../../../server/store/store-error.ts";
import { engine, logbook, steaming } from "../fixtures.ts";
import { emptyFolder } from "../running-app.ts";

const latest = migrations.at(-1)?.version;

/** The one line that opening says. */
function refusal(open: () => unknown): string {
  try {
    open();
  } catch (error) {
    expect(error).toBeInstanceOf(StoreError);
    const message = (error as Error).message;
    expect(message).not.toContain("\n");
    return message;
  }
  throw new Error("it was opened");
}

test("the database is durable, checks what refers to what, and trusts no schema", () => {
  const database = openDatabase(emptyFolder());
  const setting = (name: string) => database.pragma(name, { simple: true });
  expect(setting("journal_mode")).toBe("wal");
  expect(setting("synchronous")).toBe(2);
  expect(setting("trusted_schema")).toBe(0);
  expect(setting("foreign_keys")).toBe(1);
  expect(versionOf(database)).toBe(latest);
  database.close();
});

test("every table is strict about the types of its columns", () => {
  const database = openDatabase(emptyFolder());
  const tables = database
    .prepare<[], { name: string; strict: number }>(
      "SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%'",
    )
    .all();
  expect(tables.length).toBeGreaterThanOrEqual(10);
  expect(tables.filter(({ strict }) => strict !== 1)).toEqual([]);
  database.close();
});

test("numbers that are not finite, or out of range, are refused by the tables themselves", () => {
  const folder = emptyFolder();
  const store = openStore(folder);
  store.locomotives.add(engine);
  store.steamings.add({ ...steaming });
  const entry = { id: "x", kind: "level", mm: 3 } as const;
  for (const atS of [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN, 1e12]) {
    expect(() => store.entries.put("steaming-1", { ...entry, atS })).toThrow(/constraint/);
  }
  const trace = { channel: "levelMm", startS: 0, everyS: 1 } as const;
  expect(() => store.traces.add("steaming-1", { ...trace, values: [Number.POSITIVE_INFINITY] })).toThrow(
    /constraint/,
  );
  expect(() => store.traces.add("steaming-1", { ...trace, everyS: 0, values: [] })).toThrow(/constraint/);
  expect(store.entries.ofSteaming("steaming-1")).toEqual([]);
  expect(store.traces.ofSteaming("steaming-1")).toEqual([]);
  store.close();
});

test("what was kept is there when the database is opened again", () => {
  const folder = emptyFolder();
  const first = openStore(folder);
  first.locomotives.add(engine);
  first.close();
  const second = openStore(folder);
  expect(second.locomotives.all().map(({ locomotive }) => locomotive)).toEqual([engine]);
  second.close();
});

test("a database newer than the program is refused, and left as it is", () => {
  const folder = emptyFolder();
  openDatabase(folder).close();
  const newer = new Database(join(folder, databaseName));
  newer.pragma("user_version = 1000");
  newer.close();
  expect(refusal(() => openStore(folder))).toMatch(/is of version 1000, newer than this program's \d+/);
  const after = new Database(join(folder, databaseName), { readonly: true });
  expect(versionOf(after)).toBe(1000);
  after.close();
  expect(readdirSync(folder)).not.toContain("backups");
});

test("another program's database, a file that is none, and a folder that cannot be one are refused", () => {
  const foreign = emptyFolder();
  const database = new Database(join(foreign, databaseName));
  database.exec("CREATE TABLE birds (name TEXT)");
  database.close();
  expect(refusal(() => openStore(foreign))).toMatch(/is a database of another program/);

  const garbage = emptyFolder();
  writeFileSync(join(garbage, databaseName), "not a database ".repeat(100));
  expect(refusal(() => openStore(garbage))).toMatch(/cannot be used: file is not a database/);

  const occupied = join(emptyFolder(), "file");
  writeFileSync(occupied, "");
  expect(refusal(() => openStore(occupied))).toMatch(/the data folder .*file cannot be used/);

  const inTheWay = emptyFolder();
  mkdirSync(join(inTheWay, databaseName));
  expect(refusal(() => openStore(inTheWay))).toMatch(/cannot be used/);
});

test("a database of every older version is brought up with its content, after a copy was made", () => {
  for (const { version } of migrations) {
    const folder = emptyFolder();
    const old = new Database(join(folder, databaseName));
    migrate(
      old,
      migrations.filter((step) => step.version <= version),
      folder,
    );
    old
      .prepare("INSERT INTO locomotives (id, body, revision) VALUES (?, ?, 1)")
      .run(engine.id, JSON.stringify(engine));
    // a step more than the program has, so that the newest version is upgraded here as well
    const next = { version: 999, sql: "CREATE TABLE later (id TEXT PRIMARY KEY) STRICT" };
    migrate(old, [...migrations, next], folder);
    expect(versionOf(old)).toBe(999);
    expect(old.prepare("SELECT body FROM locomotives").pluck().all()).toEqual([JSON.stringify(engine)]);
    old.close();
    const [name, ...others] = readdirSync(join(folder, "backups"));
    expect(others).toEqual([]);
    const copy = new Database(join(folder, "backups", String(name)), { readonly: true });
    expect(versionOf(copy)).toBe(version);
    expect(copy.prepare("SELECT count(*) FROM locomotives").pluck().get()).toBe(1);
    copy.close();
  }
});

test("a step that fails leaves the database at the version before it", () => {
  const folder = emptyFolder();
  const database = new Database(join(folder, databaseName));
  migrate(database, migrations, folder);
  const steps = [
    { version: 998, sql: "CREATE TABLE whole (id TEXT) STRICT" },
    { version: 999, sql: "CREATE TABLE half (id TEXT) STRICT; INSERT INTO nowhere VALUES (1)" },
  ];
  expect(() => migrate(database, [...migrations, ...steps], folder)).toThrow(/nowhere/);
  expect(versionOf(database)).toBe(998);
  const tables = database.prepare("SELECT name FROM sqlite_schema WHERE name IN ('whole', 'half')").pluck();
  expect(tables.all()).toEqual(["whole"]);
  database.close();
});

test("the versions of the steps rise one by one", () => {
  expect(migrations.map(({ version }) => version)).toEqual(migrations.map((_, i) => i + 1));
});

test("several things done at once are done wholly or not at all", () => {
  const store = openStore(emptyFolder());
  expect(() =>
    store.atOnce(() => {
      store.locomotives.add(engine);
      store.steamings.add({ ...steaming });
      throw new Error("in the middle");
    }),
  ).toThrow("in the middle");
  expect(store.locomotives.all()).toEqual([]);
  expect(store.changes.after(0, 10)).toEqual([]);
  store.close();
});

test("a service is kept once, and another under its id is told apart", () => {
  const store = openStore(emptyFolder());
  store.locomotives.add(engine);
  const [service] = logbook.services;
  if (service === undefined) throw new Error("the fixture has a service");
  expect(store.services.add(service)).toBe("added");
  expect(store.services.add(service)).toBe("same");
  expect(store.services.add({ ...service, what: "replaced" })).toBe("differs");
  expect(store.services.ofLocomotive("engine-1")).toEqual([service]);
  store.close();
});
