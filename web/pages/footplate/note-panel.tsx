import { useSignal } from "@preact/signals";
import { Overlay } from "../../parts/overlay.tsx";

interface Properties {
  at: string;
  onKeep: (text: string) => void;
  onLeave: () => void;
}

const longest = 4000;

export function NotePanel({ at, onKeep, onLeave }: Properties) {
  const text = useSignal("");
  const keep = () => {
    const trimmed = text.value.trim();
    if (trimmed !== "") onKeep(trimmed);
  };
  return (
    <Overlay title="Note" aside={`at ${at}`} kind="panel note" onLeave={onLeave}>
      <label for="note-text">What is worth remembering</label>
      <textarea
        id="note-text"
        rows={4}
        maxLength={longest}
        value={text.value}
        onInput={(event) => {
          text.value = event.currentTarget.value;
        }}
      />
      <button type="button" class="key primary" onClick={keep}>
        Keep the note
      </button>
    </Overlay>
  );
}
