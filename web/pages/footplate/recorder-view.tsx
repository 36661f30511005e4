import { useComputed, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { rawNow, serverMsOf } from "../../outbox/clock.ts";
import type { EntryRecord, RawTime } from "../../outbox/database.ts";
import { changeSteaming } from "../../outbox/steamings.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { footplate } from "../../preferences/footplate.ts";
import { goTo } from "../../route.ts";
import { reading } from "../../words/entry-words.ts";
import { purposeNames } from "../../words/names.ts";
import { clockOf } from "../../words/time.ts";
import { ContactWords } from "./contact-words.tsx";
import { DoubtBar } from "./doubt-bar.tsx";
import { DripBar } from "./drip-bar.tsx";
import { beginDrip, type Drip } from "./drips.ts";
import { useKeys } from "./keys.ts";
import { Lock } from "./lock.tsx";
import { Opened, type Opening, type Plain } from "./opened.tsx";
import { Outlook } from "./outlook.tsx";
import { pressureTrend } from "./pressure-trend.ts";
import { Readings } from "./readings.tsx";
import { type Content, lapsOf, type Recorder } from "./recorder.ts";
import { alarmSound, buzz, dueSound } from "./signals.ts";
import { alarmsOf, standingOf } from "./standing.ts";
import { Tiles } from "./tiles.tsx";
import { useNowS } from "./use-now.ts";
import { useReckoning } from "./use-reckoning.ts";

/** One screen: what is known on top, what to do below. */
export function RecorderView({ recorder }: { recorder: Recorder }) {
  const { steaming, records, entries, said } = recorder;
  const { head, engine } = steaming.value;
  const nowS = useNowS(head.startedAt);
  const opening = useSignal<Opening | null>(null);
  const locked = useSignal(false);
  const standing = useComputed(() => standingOf(entries.value)).value;
  const reckoning = useReckoning(recorder);
  const trend = pressureTrend(entries.value, nowS);
  const known = useRef<HTMLElement>(null);
  useEffect(() => {
    // a box that may scroll must be reached by the keyboard
    if (known.current !== null) known.current.tabIndex = 0;
  }, []);

  const minutesLow =
    reckoning?.minutesToLowest == null
      ? null
      : reckoning.minutesToLowest.low - Math.max(0, nowS - reckoning.atS) / 60;
  const alarms = alarmsOf(engine, standing, trend, minutesLow);
  const { pressureDueMin, waterDueMin } = footplate.value;
  const isDue = (lastS: number | undefined, minutes: number) =>
    minutes > 0 && standing.fire === "lit" && (lastS === undefined || nowS - lastS > 60 * minutes);
  const overdue = {
    pressure: isDue(standing.pressure?.atS, pressureDueMin),
    water: isDue(standing.level?.atS, waterDueMin),
  };
  useRaised(
    alarms.map((alarm) => alarm.name),
    () => {
      alarmSound();
      buzz([200, 100, 200, 100, 200]);
    },
  );
  useRaised(
    (["pressure", "water"] as const).filter((each) => overdue[each]),
    () => {
      dueSound();
      buzz([80, 80, 80]);
    },
  );

  const lap = () => void recorder.keep({ kind: "lap", count: 1 });
  const open = (what: Plain, raw: RawTime = rawNow()) => {
    opening.value = { what, raw };
  };
  const close = () => {
    opening.value = null;
  };
  const keep = (content: Content, raw?: RawTime) => {
    close();
    void recorder.keep(content, raw);
  };
  const last = lastOwn(records.value);
  const undo = () => {
    if (last !== null) void recorder.remove(last);
  };
  useKeys(opening.value === null && !locked.value, {
    l: lap,
    PageDown: lap,
    z: undo,
    PageUp: undo,
    p: () => open("pressure"),
    w: () => open("water"),
    f: () => open("feed"),
    u: () => open("fuel"),
    v: () => open("states"),
    d: () => open("fittings"),
    n: () => open("note"),
  });
  const doubtful = records.value.findLast((record) => record.doubt !== undefined && record.deleted !== true);
  const covered = opening.value !== null || locked.value;

  return (
    <>
      <div class={`footplate hand-${footplate.value.hand}`} inert={covered}>
        <section class="known" aria-label="What is known" ref={known}>
          <header class="footplate-head">
            <div>
              <h1>
                {engine.name} <span class="unit">· {head.title ?? purposeNames[head.purpose]}</span>
              </h1>
              <p class="run-clock" role="timer">
                {clockOf(Math.floor(nowS))}
              </p>
            </div>
            <ContactWords
              steamingId={head.id}
              pending={records.value.filter((record) => record.pending !== undefined).length}
              refused={records.value.filter(isRefused).length}
            />
          </header>
          <Readings standing={standing} nowS={nowS} trendBarPerMin={trend} overdue={overdue} />
          <Outlook reckoning={reckoning} alarms={alarms} nowS={nowS} />
          <DripBar
            steamingId={head.id}
            engine={engine}
            nowS={nowS}
            secondsOf={(raw) => (serverMsOf(raw) - Date.parse(head.startedAt)) / 1000}
            onStop={(drip: Drip) => {
              const raw = rawNow();
              opening.value = { what: "drip", raw, drip };
            }}
          />
        </section>
        <div class="doing">
          {doubtful !== undefined && (
            <DoubtBar
              record={doubtful}
              recorder={recorder}
              onChange={() => {
                opening.value = { what: "change", raw: rawNow(), record: doubtful };
              }}
            />
          )}
          <Tiles
            engine={engine}
            standing={standing}
            overdue={overdue}
            fuelWords={fuelWords(entries.value)}
            onOpen={(what) => open(what)}
            onLap={lap}
          />
          <div class="foot">
            <button type="button" class="undo" disabled={last === null} onClick={undo}>
              {last === null ? "Undo" : `Undo ${undoName(last, lapsOf(entries.value))}`}
            </button>
            <p class={`said ${said.value?.grade ?? ""}`} role="status" data-number={said.value?.number ?? 0}>
              {said.value !== null && `${said.value.grade === "done" ? "✓ " : ""}${said.value.words}`}
            </p>
            <button type="button" class="more-key" onClick={() => open("more")}>
              More
            </button>
          </div>
        </div>
      </div>
      <div class="footplate-cautions" inert={covered}>
        <Cautions />
      </div>
      {opening.value !== null && (
        <Opened
          opening={opening.value}
          recorder={recorder}
          standing={standing}
          onKeep={keep}
          onCatch={(fitting) => {
            beginDrip({ steamingId: head.id, fitting, began: opening.value?.raw ?? rawNow() });
            close();
          }}
          onShow={(what) => {
            if (what === "lock") {
              close();
              locked.value = true;
            } else open(what);
          }}
          onChange={(record) => {
            opening.value = { what: "change", raw: rawNow(), record };
          }}
          onFinish={() => {
            void changeSteaming(head.id, (record) => ({ ...record, finished: true })).then(() =>
              goTo("#/footplate"),
            );
          }}
          onLeave={close}
        />
      )}
      {locked.value && (
        <Lock
          onUnlock={() => {
            locked.value = false;
          }}
        />
      )}
    </>
  );
}

/** The last thing written down on this phone that still stands. */
const lastOwn = (records: readonly EntryRecord[]): EntryRecord | null =>
  records.findLast((record) => record.raw !== undefined && record.deleted !== true) ?? null;

const isRefused = (record: EntryRecord): boolean => record.refused !== undefined && record.deleted !== true;

const undoNames: Partial<Record<EntryRecord["entry"]["kind"], string>> = {
  pressure: "pressure",
  level: "water",
  bypass: "by-pass",
  valve: "valve",
};
const undoName = ({ entry }: EntryRecord, laps: number): string =>
  entry.kind === "lap" ? `lap ${laps}` : (undoNames[entry.kind] ?? entry.kind);

function fuelWords(entries: Recorder["entries"]["value"]): string {
  const last = entries.findLast((entry) => entry.kind === "fuel");
  if (last?.kind !== "fuel") return "none yet";
  const amount = last.g === undefined ? reading(last.ml ?? 0, "ml") : reading(last.g, "g");
  return last.action === "added" ? `${amount} in` : `${amount} left`;
}

/** Does something when a name comes up that was not there before. */
function useRaised(names: readonly string[], raised: () => void): void {
  const before = useRef<ReadonlySet<string>>(new Set());
  const now = names.join(" ");
  useEffect(() => {
    const set = new Set(now === "" ? [] : now.split(" "));
    if ([...set].some((name) => !before.current.has(name))) raised();
    before.current = set;
  }, [now]);
}
