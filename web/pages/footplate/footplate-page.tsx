import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { asRefusal, Refusal } from "../../api/client.ts";
import { useLive } from "../../live/use-live.ts";
import { fetchSteaming } from "../../outbox/fetch-steaming.ts";
import { beginAgain, heardOfEntry } from "../../outbox/records.ts";
import { startOutbox } from "../../outbox/run-outbox.ts";
import { goOnWith, steamingRecord } from "../../outbox/steamings.ts";
import { tellTabs } from "../../outbox/tab-channel.ts";
import { Loading } from "../../parts/loading.tsx";
import { Notice } from "../../parts/notice.tsx";
import { route } from "../../route.ts";
import { BeginPage } from "./begin-page.tsx";
import { keepPagesHere } from "./keep-pages.ts";
import { PairingLine } from "./pairing-line.tsx";
import { openRecorder, type Recorder } from "./recorder.ts";
import { RecorderView } from "./recorder-view.tsx";
import { useWakeLock } from "./wake-lock.ts";

export function FootplatePage() {
  const { id } = route.value;
  useEffect(() => {
    // where the browser keeps nothing, the recorder says so when it is opened
    startOutbox().catch(() => undefined);
    keepPagesHere();
  }, []);
  return id === null ? <BeginPage /> : <OneFootplate id={id} />;
}

/** What other devices have added meanwhile; without an answer the phone's own log does. */
async function fetchIfSent(id: string): Promise<void> {
  const record = await steamingRecord(id);
  if (record === undefined || record.pending !== undefined) return;
  try {
    await fetchSteaming(id);
  } catch (error) {
    // a server that never heard of it was brought back to a state before it
    if (!(error instanceof Refusal) || error.code !== "no-such-steaming") throw error;
    if (record.raw !== undefined && record.refused === undefined) await beginAgain(id);
  }
}

function OneFootplate({ id }: { id: string }) {
  const recorder = useSignal<Recorder | null>(null);
  const refusal = useSignal<Refusal | null>(null);
  useWakeLock();

  useEffect(() => {
    let left = false;
    const open = async () => {
      let record = await steamingRecord(id);
      if (record?.dropped === true) await goOnWith(id);
      if (record === undefined) {
        await fetchSteaming(id);
        record = await steamingRecord(id);
      } else fetchIfSent(id).catch(() => undefined);
      if (record === undefined) return;
      const opened = await openRecorder(record);
      if (left) opened.stop();
      else recorder.value = opened;
    };
    open().catch((error) => {
      refusal.value = asRefusal(error);
    });
    return () => {
      left = true;
      recorder.peek()?.stop();
    };
  }, [id, recorder, refusal]);

  useLive((event) => {
    if (event.of === "restart") void fetchIfSent(id).catch(() => undefined);
    if (event.of !== "entry" || event.steamingId !== id) return;
    void heardOfEntry(id, event.entryId, event.entry ?? null).then((changed) => {
      if (changed) tellTabs({ what: "written", steamingId: id });
    });
  });

  if (recorder.value === null) {
    return (
      <>
        <h1>Footplate</h1>
        <PairingLine refusal={refusal.value} />
        <Loading what="steaming" refusal={refusal.value} retry={() => location.reload()} />
      </>
    );
  }
  const { refused } = recorder.value.steaming.value;
  const notice = refused !== undefined && (
    <Notice grade="danger" word="The server refuses this steaming:">
      {refused}. Everything is kept here: save a copy.{" "}
      <button type="button" onClick={() => void beginAgain(id)}>
        Send it again
      </button>
    </Notice>
  );
  return <RecorderView recorder={recorder.value} notice={notice} />;
}
