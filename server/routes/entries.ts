import { z } from "zod";
import { identifier } from "../../src/logbook/bounds.ts";
import { entrySchema } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { problemsOf } from "../../src/logbook/problems.ts";
import type { App } from "../app-type.ts";
import { ApiError, asApiError, type ErrorCode, errorStatuses, invalid } from "../errors.ts";
import { steamingMissing } from "../reports.ts";
import type { EntryKept, KeptEntry } from "../store/entries.ts";
import type { Store } from "../store/store.ts";
import { queryFlag } from "../validation.ts";
import { sameId } from "./locomotives.ts";
import {
  type EntryAnswer,
  entryAnswerSchema,
  errorSchema,
  formerEntrySchema,
  idInAddress,
  nothing,
} from "./shapes.ts";
import { largeBodyBytes } from "./steamings.ts";

const entryAddress = z.strictObject({ id: identifier, entryId: identifier });
const mostAtOnce = 50_000;
/** As many as a logbook file takes, so that what is kept can always be taken out and brought in again. */
const mostEntries = 200_000;
const batch = z.array(z.unknown()).max(mostAtOnce);

export function entryRoutes(api: App, store: Store): void {
  api.put(
    "/steamings/:id/entries/:entryId",
    {
      schema: {
        summary: "Keeps an entry once, however often it is sent; with correction=true in place of the former",
        params: entryAddress,
        querystring: z.strictObject({ correction: queryFlag.optional() }),
        body: entrySchema,
        response: { 200: entrySchema, 201: entrySchema, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { id, entryId } = request.params;
      if (request.body.id !== undefined) sameId(request.body.id, entryId);
      const entry = { ...request.body, id: entryId };
      const kept = put(store, targetOf(store, id), entry, request.query.correction ?? false);
      return reply.status(kept === "added" ? 201 : 200).send(entry);
    },
  );

  api.delete(
    "/steamings/:id/entries/:entryId",
    {
      schema: {
        summary: "Deletes an entry for good: its id is not taken again",
        params: entryAddress,
        response: { 204: nothing, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { id, entryId } = request.params;
      targetOf(store, id);
      store.entries.remove(id, entryId);
      return reply.status(204).send(null);
    },
  );

  api.get(
    "/steamings/:id/entries/:entryId/history",
    {
      schema: {
        summary: "What an entry said before it was corrected or deleted, the oldest first",
        params: entryAddress,
        response: { 200: z.array(formerEntrySchema), "4xx": errorSchema },
      },
    },
    async (request) => {
      const { id, entryId } = request.params;
      targetOf(store, id);
      const history = store.entries.history(id).filter((former) => former.entryId === entryId);
      if (history.length === 0 && store.entries.get(id, entryId) === undefined) {
        throw new ApiError("no-such-entry", `there is no entry ${entryId} in steaming ${id}, and never was`);
      }
      return history;
    },
  );

  api.post(
    "/steamings/:id/entries",
    {
      bodyLimit: largeBodyBytes,
      schema: {
        summary: "Keeps several entries, each with an id; an answer for each, in the same order",
        params: idInAddress,
        body: z.union([batch, z.strictObject({ entries: batch })]),
        response: { 200: z.array(entryAnswerSchema), "4xx": errorSchema },
      },
    },
    async (request) => {
      const { id } = request.params;
      const target = targetOf(store, id);
      const items = Array.isArray(request.body) ? request.body : request.body.entries;
      return store.atOnce(() => items.map((item) => answerOne(store, target, item)));
    },
  );
}

/** The steaming that entries are for. */
interface Target {
  steamingId: string;
  engine: Locomotive;
  /** entries it has; counted on while several are kept */
  entries: number;
}

function targetOf(store: Store, steamingId: string): Target {
  const steaming = store.steamings.get(steamingId);
  const engine = steaming && store.locomotives.get(steaming.head.locomotiveId);
  if (steaming === undefined || engine === undefined) throw steamingMissing(store, steamingId);
  return { steamingId, engine: engine.locomotive, entries: steaming.entries };
}

const full = new ApiError(
  "steaming-full",
  `a steaming takes ${mostEntries} entries: log what a sensor reads as traces`,
);

/** @throws ApiError where the entry is not kept */
function put(store: Store, target: Target, entry: KeptEntry, correction: boolean): EntryKept {
  const { engine, steamingId } = target;
  if (
    (entry.kind === "drip" || entry.kind === "look") &&
    !engine.fittings.some((fitting) => fitting.id === entry.fitting)
  ) {
    const fittings = engine.fittings.map((fitting) => fitting.id).join(", ") || "it has none";
    const wanted = `a fitting of ${engine.id}: ${fittings}`;
    throw invalid([{ path: "fitting", came: entry.fitting, wanted }]);
  }
  const kept = store.atOnce(() => {
    const done = store.entries.put(steamingId, entry, correction);
    if (done === "added" && target.entries >= mostEntries) throw full;
    return done;
  });
  if (kept === "differs") {
    const message = `entry ${entry.id} is kept with other content; a correction says correction=true`;
    throw new ApiError("entry-differs", message, { path: "id" });
  }
  if (kept === "buried") {
    throw new ApiError("entry-deleted", `entry ${entry.id} was deleted`, { path: "id" });
  }
  if (kept === "added") target.entries++;
  return kept;
}

function answerOne(store: Store, target: Target, item: unknown): EntryAnswer {
  const id = idOf(item);
  try {
    const parsed = entrySchema.safeParse(item);
    if (!parsed.success) throw invalid(problemsOf(parsed.error, item));
    if (parsed.data.id === undefined) {
      throw invalid([{ path: "id", came: "nothing", wanted: "an id made by the sender" }]);
    }
    const kept = put(store, target, { ...parsed.data, id: parsed.data.id }, false);
    return { id, status: kept === "added" ? 201 : 200 };
  } catch (error) {
    const { code, message, path } = asApiError(error).body();
    if (!tellable.includes(code)) throw error;
    return { id, status: errorStatuses[code], code, message, ...(path === undefined ? {} : { path }) };
  }
}

const tellable: readonly ErrorCode[] = ["invalid", "entry-differs", "entry-deleted", "steaming-full"];

function idOf(item: unknown): string | null {
  const id = item !== null && typeof item === "object" && "id" in item ? item.id : null;
  return typeof id === "string" ? id : null;
}
