import { unkept } from "../../outbox/unkept.ts";
import { entryInWords } from "../../words/entry-words.ts";
import { AskingBar } from "./asking-bar.tsx";
import type { Recorder } from "./recorder.ts";

/** What the phone's store did not take: it stands in this page's memory alone until it is kept. */
export function UnkeptBar({ recorder }: { recorder: Recorder }) {
  const held = unkept.value;
  const last = held.at(-1);
  if (last === undefined) return null;
  const words = entryInWords(last.entry, recorder.steaming.value.engine);
  const more = held.length > 1 ? ` and ${held.length - 1} before it` : "";
  return (
    <AskingBar
      kind="unkept-bar"
      grade="danger"
      words={`Not kept: ${words}${more}.`}
      keys={[["Keep it again", () => void recorder.keepUnkept()]]}
    >
      Only this open page has it: leave it open.
    </AskingBar>
  );
}
