import { unkept } from "../../outbox/unkept.ts";
import { Mark } from "../../parts/mark.tsx";
import { entryInWords } from "../../words/entry-words.ts";
import type { Recorder } from "./recorder.ts";

/** What the phone's store did not take: it stands in this page's memory alone until it is kept. */
export function UnkeptBar({ recorder }: { recorder: Recorder }) {
  const held = unkept.value;
  const last = held.at(-1);
  if (last === undefined) return null;
  const words = entryInWords(last.entry, recorder.steaming.value.engine);
  return (
    <div class="doubt-bar unkept-bar" role="alert">
      <p>
        <Mark of="danger" />{" "}
        <strong>
          Not kept: {words}
          {held.length > 1 && ` and ${held.length - 1} before it`}.
        </strong>{" "}
        Only this open page has it: leave it open.
      </p>
      <button type="button" class="key" onClick={() => void recorder.keepUnkept()}>
        Keep it again
      </button>
    </div>
  );
}
