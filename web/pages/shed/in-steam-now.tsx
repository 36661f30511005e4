import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { begunLately, isInSteam } from "../../../src/logbook/in-steam.ts";
import { addresses } from "../../api/addresses.ts";
import { call } from "../../api/client.ts";
import type { Shed } from "../../api/shapes.ts";
import { followLive } from "../../live/live-stream.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { glimpseOffset } from "../../outbox/server-clock.ts";
import { footplateAddress, sheetAddress } from "../../route.ts";
import { counted } from "../../words/counted.ts";
import { entryInWords } from "../../words/entry-words.ts";
import { purposeNames } from "../../words/names.ts";
import { spanInWords } from "../../words/time.ts";

interface Properties {
  shed: Shed;
  /** a steaming came or went that the shed does not know of yet */
  onNews: () => void;
}

type Running = Record<string, LogEntry[]>;

/** Engines that somebody is steaming at this moment, as it happens. */
export function InSteamNow({ shed, onNews }: Properties) {
  const running = useSignal<Running>({});
  // of the server, by which the entries are timed
  const offsetMs = useSignal(0);
  const nowMs = useSignal(Date.now());
  const recent = shed.engines.flatMap(({ locomotive, steamings }) =>
    steamings
      .filter(({ startedAt }) => begunLately(startedAt, nowMs.value))
      .map((steaming) => ({ locomotive, steaming })),
  );
  const ids = recent.map(({ steaming }) => steaming.id).join("\n");

  useEffect(() => {
    let left = false;
    const tick = () => {
      nowMs.value = Date.now() + offsetMs.peek();
    };
    glimpseOffset(() => call<{ nowMs: number }>("GET", addresses.clock))
      .then((found) => {
        offsetMs.value = found?.offsetMs ?? 0;
        tick();
      })
      .catch(() => undefined);
    const fetchOne = async (id: string) => {
      const { entries } = await call<{ entries: LogEntry[] }>("GET", addresses.steaming(id));
      if (!left) running.value = { ...running.peek(), [id]: entries };
    };
    const known = ids === "" ? [] : ids.split("\n");
    for (const id of known) void fetchOne(id).catch(() => undefined);
    const unfollow = followLive((event) => {
      if (event.of === "restart" || event.of === "steaming") onNews();
      if (event.of !== "entry") return;
      if (!known.includes(event.steamingId)) onNews();
      else void fetchOne(event.steamingId).catch(() => undefined);
      tick();
    });
    const timer = setInterval(tick, 10_000);
    return () => {
      left = true;
      unfollow();
      clearInterval(timer);
    };
  }, [ids, onNews, running, nowMs, offsetMs]);

  const steaming = recent.filter(({ steaming: { id, startedAt } }) => {
    const entries = running.value[id];
    return entries !== undefined && isInSteam(startedAt, byTime(entries).at(-1)?.atS ?? 0, nowMs.value);
  });
  if (steaming.length === 0) return null;
  return (
    <section class="ruled in-steam" aria-labelledby="in-steam-title">
      <h2 id="in-steam-title">In steam now</h2>
      <ul>
        {steaming.map(({ locomotive, steaming: { id, startedAt, title, purpose } }) => {
          const entries = byTime(running.value[id] ?? []);
          const last = entries.at(-1);
          const agoS = last === undefined ? 0 : (nowMs.value - Date.parse(startedAt)) / 1000 - last.atS;
          return (
            <li key={id}>
              <p>
                <strong>{locomotive.name}</strong>, {title ?? purposeNames[purpose]}:{" "}
                {counted(entries.length, "entry", "entries")}
                {last !== undefined &&
                  `, the last ${entryInWords(last, locomotive)}, ${spanInWords(Math.max(0, agoS))} ago`}
                .
              </p>
              <div class="actions">
                <a class="button" href={sheetAddress(id)}>
                  Her test sheet, as it grows
                </a>
                <a class="button" href={footplateAddress(id)}>
                  To her Footplate
                </a>
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

const byTime = (entries: readonly LogEntry[]) => [...entries].sort((a, b) => a.atS - b.atS);
