import type { Migration } from "./migrate.ts";

/**
 * The database's form, step by step; a step that has been released is never edited.
 * STRICT tables still take Infinity, so every number has its range.
 */
export const migrations: readonly Migration[] = [
  {
    version: 1,
    sql: `
      CREATE TABLE changes (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        what TEXT NOT NULL CHECK (what IN (
          'locomotive-kept', 'locomotive-removed', 'steaming-kept', 'steaming-removed',
          'entry-added', 'entry-corrected', 'entry-deleted', 'traces-added', 'service-kept')),
        locomotive_id TEXT,
        steaming_id TEXT,
        entry_id TEXT
      ) STRICT;

      CREATE TABLE settings (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;

      CREATE TABLE locomotives (
        id TEXT PRIMARY KEY,
        body TEXT NOT NULL CHECK (json_valid(body)),
        demonstration INTEGER NOT NULL DEFAULT 0 CHECK (demonstration IN (0, 1)),
        revision INTEGER NOT NULL CHECK (revision > 0)
      ) STRICT;

      CREATE TABLE steamings (
        id TEXT PRIMARY KEY,
        locomotive_id TEXT NOT NULL REFERENCES locomotives (id) ON DELETE CASCADE,
        started_at_ms INTEGER NOT NULL CHECK (started_at_ms BETWEEN -62167219200000 AND 253402300799999),
        head TEXT NOT NULL CHECK (json_valid(head)),
        demonstration INTEGER NOT NULL DEFAULT 0 CHECK (demonstration IN (0, 1)),
        revision INTEGER NOT NULL CHECK (revision > 0)
      ) STRICT;
      CREATE INDEX steamings_of_locomotive ON steamings (locomotive_id, started_at_ms);

      CREATE TABLE entries (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        steaming_id TEXT NOT NULL REFERENCES steamings (id) ON DELETE CASCADE,
        id TEXT NOT NULL,
        at_s REAL NOT NULL CHECK (at_s BETWEEN -604800 AND 31622400),
        kind TEXT NOT NULL,
        fitting TEXT,
        body TEXT NOT NULL CHECK (json_valid(body)),
        UNIQUE (steaming_id, id)
      ) STRICT;

      CREATE TABLE entry_history (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        steaming_id TEXT NOT NULL REFERENCES steamings (id) ON DELETE CASCADE,
        entry_id TEXT NOT NULL,
        what TEXT NOT NULL CHECK (what IN ('corrected', 'deleted')),
        former TEXT CHECK (former IS NULL OR json_valid(former)),
        at TEXT NOT NULL
      ) STRICT;
      CREATE INDEX history_of_steaming ON entry_history (steaming_id, entry_id);

      CREATE TABLE buried_entries (
        steaming_id TEXT NOT NULL REFERENCES steamings (id) ON DELETE CASCADE,
        entry_id TEXT NOT NULL,
        PRIMARY KEY (steaming_id, entry_id)
      ) STRICT, WITHOUT ROWID;

      CREATE TABLE traces (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        steaming_id TEXT NOT NULL REFERENCES steamings (id) ON DELETE CASCADE,
        channel TEXT NOT NULL CHECK (channel IN ('pressureBarG', 'temperatureC', 'levelMm', 'massG')),
        start_s REAL NOT NULL CHECK (start_s BETWEEN -604800 AND 31622400),
        every_s REAL NOT NULL CHECK (every_s > 0 AND every_s <= 86400),
        samples INTEGER NOT NULL CHECK (samples BETWEEN 0 AND 2000000)
      ) STRICT;
      CREATE INDEX traces_of_steaming ON traces (steaming_id);

      CREATE TABLE trace_blocks (
        trace_seq INTEGER NOT NULL REFERENCES traces (seq) ON DELETE CASCADE,
        first INTEGER NOT NULL CHECK (first >= 0),
        samples INTEGER NOT NULL CHECK (samples > 0),
        lowest REAL CHECK (lowest BETWEEN -1e9 AND 1e9),
        highest REAL CHECK (highest BETWEEN -1e9 AND 1e9),
        data BLOB NOT NULL,
        PRIMARY KEY (trace_seq, first)
      ) STRICT, WITHOUT ROWID;

      CREATE TABLE services (
        id TEXT PRIMARY KEY,
        locomotive_id TEXT NOT NULL REFERENCES locomotives (id) ON DELETE CASCADE,
        at_ms INTEGER NOT NULL CHECK (at_ms BETWEEN -62167219200000 AND 253402300799999),
        fitting TEXT NOT NULL,
        body TEXT NOT NULL CHECK (json_valid(body)),
        demonstration INTEGER NOT NULL DEFAULT 0 CHECK (demonstration IN (0, 1))
      ) STRICT;
      CREATE INDEX services_of_locomotive ON services (locomotive_id, at_ms);
    `,
  },
  {
    version: 2,
    sql: `
      ALTER TABLE changes ADD COLUMN is_new INTEGER NOT NULL DEFAULT 0 CHECK (is_new IN (0, 1));
    `,
  },
  {
    version: 3,
    sql: `
      CREATE TABLE devices (
        id TEXT PRIMARY KEY,
        name TEXT NOT NULL,
        may TEXT NOT NULL CHECK (may IN ('record', 'view')),
        token_hash TEXT NOT NULL UNIQUE,
        paired_at TEXT NOT NULL
      ) STRICT;
    `,
  },
  {
    version: 4,
    sql: `
      CREATE TABLE plans (
        locomotive_id TEXT NOT NULL REFERENCES locomotives (id) ON DELETE CASCADE,
        name TEXT NOT NULL,
        body TEXT NOT NULL CHECK (json_valid(body)),
        PRIMARY KEY (locomotive_id, name)
      ) STRICT, WITHOUT ROWID;
    `,
  },
];
