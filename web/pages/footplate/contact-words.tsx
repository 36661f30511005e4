import { mayWrite } from "../../api/token.ts";
import { clockChecked, serverMovedMs } from "../../outbox/clock.ts";
import { contact, waiting } from "../../outbox/outbox-state.ts";
import { unkept } from "../../outbox/unkept.ts";
import { Mark } from "../../parts/mark.tsx";
import { spanInWords } from "../../words/time.ts";

const troubleWords = {
  "no-answer": "server out of reach",
  "not-paired": "this phone is not paired",
  "view-only": "this phone may only view",
  refused: "the server refuses",
  "no-store": "this browser's store fails",
} as const;

interface Properties {
  onCopy: () => Promise<void>;
  /** of this steaming, known as soon as an entry is kept */
  pending: number;
  refused: number;
  /** the server does not take the steaming itself */
  steamingRefused: boolean;
}

/** Always in sight: what is kept here and not sent, and when the server last answered. */
export function ContactWords({ onCopy, pending, refused, steamingRefused }: Properties) {
  const { lastMs, trouble } = contact.value;
  const unsent = Math.max(waiting.value, pending);
  return (
    <div class="contact" role="status">
      {unsent > 0 ? (
        <p>{unsent} kept here, not sent</p>
      ) : (
        refused === 0 &&
        !steamingRefused &&
        unkept.value.length === 0 && <p>{mayWrite() ? "all sent" : "this phone may only view"}</p>
      )}
      {(refused > 0 || steamingRefused) && (
        <p class="trouble">
          <Mark of="caution" /> {refused > 0 ? refused : "steaming"} refused, kept here: see All entries
        </p>
      )}
      <p>
        {lastMs === null ? "no contact yet" : `last contact ${new Date(lastMs).toTimeString().slice(0, 5)}`}
      </p>
      {trouble !== null && (
        <p class="trouble">
          <Mark of="caution" /> {troubleWords[trouble]}
        </p>
      )}
      {trouble !== null && !clockChecked.value && <p>times by this phone's clock, not checked yet</p>}
      {serverMovedMs.value !== 0 && (
        <p class="trouble">
          <Mark of="caution" /> server's clock was set {serverMovedMs.value < 0 ? "back" : "ahead"} by{" "}
          {spanInWords(Math.abs(serverMovedMs.value) / 1000)}: times go on as before
        </p>
      )}
      {trouble === "not-paired" && (
        <a class="button" href="#/pair">
          Pair it
        </a>
      )}
      {refused > 0 && (
        <button type="button" onClick={() => void onCopy()}>
          Save a copy
        </button>
      )}
    </div>
  );
}
