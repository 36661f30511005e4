import type { Connection } from "./connection.ts";

/** What the program remembers of itself between runs. */
export function settingsIn(database: Connection) {
  const get = database.prepare<[string], string>("SELECT value FROM settings WHERE name = ?").pluck();
  const put = database.prepare<[string, string]>(
    "INSERT INTO settings (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
  );
  return {
    get: (name: "demonstration"): string | undefined => get.get(name) as string | undefined,
    put: (name: "demonstration", value: string): void => void put.run(name, value),
  };
}
