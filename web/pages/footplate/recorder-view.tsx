import { computed, useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { readingErrors } from "../../../src/analysis/state/instruments.ts";
import { mayWrite } from "../../api/token.ts";
import { rawNow } from "../../outbox/clock.ts";
import type { RawTime } from "../../outbox/database.ts";
import { changeSteaming } from "../../outbox/steamings.ts";
import { unkept } from "../../outbox/unkept.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { footplate } from "../../preferences/footplate.ts";
import { goTo, sheetAddress } from "../../route.ts";
import { entryInWords, reading } from "../../words/entry-words.ts";
import { purposeNames } from "../../words/names.ts";
import { clockOf } from "../../words/time.ts";
import { overdueOf, useAlerts } from "./alerts.ts";
import { useBackStep } from "./back-step.ts";
import { fuelThere } from "./beyond.ts";
import { useBounceGuard } from "./bounce.ts";
import { ContactWords } from "./contact-words.tsx";
import { DoubtBar } from "./doubt-bar.tsx";
import { DripBar } from "./drip-bar.tsx";
import { beginDrip, type Drip, drips } from "./drips.ts";
import { Foot } from "./foot.tsx";
import { useKeys } from "./keys.ts";
import { Lock } from "./lock.tsx";
import { Opened } from "./opened.tsx";
import type { Opening, Plain } from "./opening.ts";
import { Alarms, Outlook } from "./outlook.tsx";
import { isRefused } from "./over-here.tsx";
import { fallBarPerMin, pressureTrend } from "./pressure-trend.ts";
import { Readings } from "./readings.tsx";
import { waterLeft } from "./reckoning.ts";
import type { Content, Recorder } from "./recorder.ts";
import { alarmsOf, callsOf, standingOf } from "./standing.ts";
import { Tiles } from "./tiles.tsx";
import { UnkeptBar } from "./unkept-bar.tsx";
import { useNowS } from "./use-now.ts";
import { useReckoning } from "./use-reckoning.ts";
import { asksForWater, WaterQuestion } from "./water-question.tsx";

/** Nobody undoes twice within this; a wet thumb does. */
const UNDO_ONCE_MS = 400;

/** One screen: what is known on top, what to do below. */
export function RecorderView({ recorder, notice }: { recorder: Recorder; notice: ComponentChildren }) {
  const { steaming, records, entries } = recorder;
  const { head, engine } = steaming.value;
  const nowS = useNowS(head.startedAt);
  const opening = useSignal<Opening | null>(null);
  const locked = useSignal(false);
  const standing = useMemo(() => computed(() => standingOf(entries.value)), [entries]).value;
  const reckoning = useReckoning(recorder);
  const known = useRef<HTMLElement>(null);
  useEffect(() => {
    // a box that may scroll must be reached by the keyboard
    if (known.current !== null) known.current.tabIndex = 0;
  }, []);

  const isWaterTest = head.purpose === "cold-hold" && standing.fire !== "lit";
  const fall = fallBarPerMin(entries.value, nowS, readingErrors(engine).pressureReadingBar);
  // a fall is shown as fast as its alarm takes it
  const trend = fall > 0 ? -fall : pressureTrend(entries.value, nowS);
  const alarms = alarmsOf(engine, standing, fall, waterLeft(reckoning, nowS), isWaterTest);
  // low water waits for no minutes
  const told = alarms[0]?.name === "low-water" ? null : reckoning;
  const wanted = (unreadS?: number) =>
    isWaterTest ? { pressure: false, water: false } : overdueOf(standing, nowS, unreadS);
  const overdue = wanted();
  // of what was never read yet the word is enough until its time has passed
  useAlerts(callsOf(alarms, standing, nowS), wanted(standing.beganS ?? nowS));

  const lap = () => void recorder.keep({ kind: "lap", count: 1 });
  const open = (what: Plain, raw: RawTime = rawNow()) => {
    opening.value = { what, raw };
  };
  const close = () => {
    opening.value = null;
  };
  const keep = (content: Content, raw?: RawTime) => {
    // a second touch may come before the sheet is gone
    if (opening.peek() === null) return;
    close();
    void recorder.keep(content, raw);
  };
  const undoneMs = useRef(Number.NEGATIVE_INFINITY);
  const undo = (atMs: number) => {
    if (atMs - undoneMs.current < UNDO_ONCE_MS) return;
    undoneMs.current = atMs;
    void recorder.undo();
  };
  const isOpen = opening.value !== null;
  const mayRecord = mayWrite();
  useKeys(mayRecord && !isOpen && !locked.value, {
    l: lap,
    z: undo,
    p: () => open("pressure"),
    w: () => open("water"),
    f: () => open("feed"),
    u: () => open("fuel"),
    v: () => open("states"),
    d: () => open("fittings"),
    n: () => open("note"),
  });
  // a clicker in the other hand or a pocket counts whatever lies open, and takes back what it wrote and nothing else
  const takeBackLap = (atMs: number) => {
    const last = recorder.undoes.peek();
    if (last === null || (last.entry.kind === "lap" && !recorder.undoesChange.peek())) undo(atMs);
    else if (atMs - undoneMs.current > UNDO_ONCE_MS)
      recorder.say(`${entryInWords(last.entry, engine)} came last: Undo or Z takes it back`, "danger");
  };
  useKeys(mayRecord, { PageDown: lap, PageUp: takeBackLap }, true);
  const said = recorder.said.value;
  const saidBefore = useRef(0);
  if (opening.value === null) saidBefore.current = said?.number ?? 0;
  // laps and the glass are of no matter in a test with cold water
  const asked = records.value.findLast(
    ({ doubt, deleted, entry: { kind } }) =>
      doubt !== undefined && deleted !== true && !(isWaterTest && (kind === "lap" || kind === "level")),
  );
  const asks = mayRecord && !isWaterTest && asksForWater(head.id, standing);
  const covered = isOpen || locked.value;
  const held = drips.value.filter((drip) => drip.steamingId === head.id).length;
  // a locked screen stays locked
  useBackStep(covered, close);
  const sheet = opening.value?.what ?? (locked.value ? "lock" : "");
  useBounceGuard(sheet, `${asked?.id ?? ""} ${held} ${asks}`);

  return (
    <>
      <div class={`footplate hand-${footplate.value.hand} ${locked.value ? "locked" : ""}`} inert={covered}>
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
              onCopy={recorder.saveCopy}
              pending={records.value.filter((record) => record.pending !== undefined).length}
              refused={records.value.filter(isRefused).length}
              steamingRefused={steaming.value.refused !== undefined}
            />
          </header>
          {notice}
          <Readings standing={standing} nowS={nowS} trendBarPerMin={trend} overdue={overdue} />
          <Outlook reckoning={told} nowS={nowS} />
        </section>
        {(asked !== undefined || asks || held + unkept.value.length + alarms.length > 0) && (
          <div class="asides">
            <Alarms alarms={alarms} reckoning={told} nowS={nowS} />
            <UnkeptBar recorder={recorder} />
            <DripBar
              steamingId={head.id}
              engine={engine}
              nowS={nowS}
              startedAt={head.startedAt}
              onStop={(drip: Drip) => {
                const raw = rawNow();
                opening.value = { what: "drip", raw, drip };
              }}
            />
            {asks && <WaterQuestion steamingId={head.id} onRead={() => open("water")} />}
            {asked !== undefined && (
              <DoubtBar
                record={asked}
                recorder={recorder}
                onChange={() => {
                  opening.value = { what: "change", raw: rawNow(), record: asked };
                }}
              />
            )}
          </div>
        )}
        {mayRecord ? (
          <div class="doing">
            <Foot recorder={recorder} onUndo={undo} onMore={() => open("more")} />
            <Tiles
              engine={engine}
              standing={standing}
              overdue={overdue}
              fuelWords={fuelWords(entries.value)}
              isWaterTest={isWaterTest}
              onOpen={(what) => open(what)}
              onLap={lap}
            />
          </div>
        ) : (
          <div class="panel-keys">
            <a class="button key" href={sheetAddress(head.id)}>
              Her test sheet
            </a>
            <a class="button key" href="#/shed">
              To the Shed
            </a>
          </div>
        )}
      </div>
      <div class="footplate-cautions" inert={covered}>
        <Cautions />
      </div>
      {isOpen && said !== null && said.number > saidBefore.current && (
        <p class={`said-over ${said.grade}`} role="status">
          {said.words}
        </p>
      )}
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
              goTo(`#/footplate?over=${encodeURIComponent(head.id)}`),
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

function fuelWords(entries: Recorder["entries"]["value"]): string {
  const fuel = entries.filter((entry) => entry.kind === "fuel");
  const last = fuel.at(-1);
  if (last === undefined) return "none yet";
  const unit = last.g === undefined ? "ml" : "g";
  return `${reading(fuelThere(fuel, unit), unit)} ${last.action === "added" ? "in" : "left"}`;
}
