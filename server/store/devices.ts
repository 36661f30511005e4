import { createHash, randomUUID } from "node:crypto";
import type { Connection } from "./connection.ts";

/** `view`: may only read. */
export type May = "record" | "view";

/** A phone or a browser that was paired. */
export interface Device {
  id: string;
  name: string;
  may: May;
  pairedAt: string;
}

/** A token is 256 random bits, so a plain hash cannot be searched back from; whoever reads the file has no token. */
const hashOf = (token: string): string => createHash("sha256").update(token).digest("hex");

export function devicesIn(database: Connection, now: () => Date) {
  const columns = "id, name, may, paired_at AS pairedAt";
  const all = database.prepare<[], Device>(`SELECT ${columns} FROM devices ORDER BY paired_at, id`);
  const ofHash = database.prepare<[string], Device>(`SELECT ${columns} FROM devices WHERE token_hash = ?`);
  const one = database.prepare<[string], 1>("SELECT 1 FROM devices WHERE id = ?").pluck();
  const insert = database.prepare<[string, string, May, string, string]>(
    "INSERT INTO devices (id, name, may, token_hash, paired_at) VALUES (?, ?, ?, ?, ?)",
  );
  const remove = database.prepare<[string]>("DELETE FROM devices WHERE id = ?");
  return {
    all: (): Device[] => all.all(),
    has: (id: string): boolean => one.get(id) !== undefined,
    /** The device that was given this token, if it still may come. */
    withToken: (token: string): Device | undefined => ofHash.get(hashOf(token)),
    /** Keeps a device; of its token only the hash. */
    add(name: string, may: May, token: string): void {
      insert.run(randomUUID(), name, may, hashOf(token), now().toISOString());
    },
    /** Takes a device's token from it. False where there is none. */
    remove: (id: string): boolean => remove.run(id).changes === 1,
  };
}
