import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import { openStore, type Shelf } from "./indexed-store.ts";
import type { Epoch } from "./phone-clock.ts";
import { reopening } from "./reopening.ts";

export type LogEntry = Entry & { id: string };

/** When a thing was tapped, by the phone's own clocks; kept whatever is made of it later. */
export interface RawTime {
  phoneMs: number;
  steadyMs: number;
  epoch: string;
  /** what was known then of the way from the phone's clock to the server's; null: nothing */
  offsetMs: number | null;
}

/** An entry as this phone has it; `pending` is what the server has still to be told. */
export interface EntryRecord {
  /** the order in which things were written down here */
  seq?: number;
  id: string;
  steamingId: string;
  entry: LogEntry;
  /** absent where another device wrote it down */
  raw?: RawTime;
  pending?: "add" | "correct" | "delete";
  /** rises with every change made here, so that an answer to an older version settles nothing */
  revision: number;
  /** its time was settled as it was sent for the first time */
  settled?: boolean;
  deleted?: boolean;
  /** what corrections replaced, here and elsewhere, the oldest first */
  former?: LogEntry[];
  /**
   * how many of its versions (`former`, then `entry`) the server has been told; absent: all of them, or none of an
   * entry that is still to be sent
   */
  told?: number;
  /** times under which it stands in copies that were saved before its own was settled */
  copied?: number[];
  /** the server's no: it is kept here and not sent again until it is changed */
  refused?: string;
  /** why it looks odd beside what stood before it, until somebody has looked at it again */
  doubt?: string;
}

/** What may be changed of a steaming that was begun. */
export type Particulars = Omit<SteamingHead, "id" | "locomotiveId" | "startedAt">;

/** A steaming that this phone records. */
export interface SteamingRecord {
  id: string;
  head: SteamingHead;
  engine: Locomotive;
  raw?: RawTime;
  /** what the server has still to be told: the steaming itself, particulars that were changed here, or its end */
  pending?: "begin" | "change" | "drop";
  /** those particulars, by name; another device may have changed others meanwhile */
  changed?: (keyof Particulars)[];
  settled?: boolean;
  finished?: boolean;
  /** nothing was written in it, and it is to be nowhere any more */
  dropped?: boolean;
  /** starts under which it stands in copies that were saved before its own was settled */
  copied?: string[];
  /** the server's no to the steaming itself */
  refused?: string;
}

type OutboxShelves = {
  entries: {
    key: number;
    value: EntryRecord;
    indexes: { id: string; steamingId: string; pending: string; refused: string };
  };
  steamings: { key: string; value: SteamingRecord; indexes: { pending: string; refused: string } };
  clock: { key: string; value: Epoch; indexes: Record<never, never> };
  kept: { key: string; value: unknown; indexes: Record<never, never> };
};

/** The phone's own store. @throws where the browser denies one (some private windows) */
export const outbox = reopening((lost) => openStore<OutboxShelves>("lapwater", build, lost));

function build(database: IDBDatabase, transaction: IDBTransaction, version: number): void {
  if (version === 0) buildFirst(database);
  for (const name of ["entries", "steamings"])
    transaction.objectStore(name).createIndex("refused", "refused");
}

function buildFirst(database: IDBDatabase): void {
  const entries = database.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
  entries.createIndex("id", "id", { unique: true });
  entries.createIndex("steamingId", "steamingId");
  entries.createIndex("pending", "pending");
  database.createObjectStore("steamings", { keyPath: "id" }).createIndex("pending", "pending");
  database.createObjectStore("clock", { keyPath: "id" });
  database.createObjectStore("kept");
}

/** One store alone, for one request. */
export const shelf = async <Name extends keyof OutboxShelves>(name: Name, mode?: IDBTransactionMode) =>
  (await outbox()).transaction(name, mode).objectStore(name);

type ShelvesOf<Names extends readonly (keyof OutboxShelves)[]> = {
  [At in keyof Names]: Shelf<OutboxShelves[Names[At]]>;
};

/** Reads and writes some stores in one transaction: when this returns, all of it is kept. */
export async function inOneGo<const Names extends readonly (keyof OutboxShelves)[], Result>(
  names: Names,
  work: (...shelves: ShelvesOf<Names>) => Promise<Result>,
  options?: IDBTransactionOptions,
): Promise<Result> {
  const transaction = (await outbox()).transaction([...names], "readwrite", options);
  const shelves = names.map((name) => transaction.objectStore(name));
  const result = await work(...(shelves as unknown as ShelvesOf<Names>));
  await transaction.done;
  return result;
}

/** On the disk itself, and not only in the browser's memory, before it counts as kept. */
export const strict = { durability: "strict" } as const;
