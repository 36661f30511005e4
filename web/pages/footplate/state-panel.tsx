import { Overlay } from "../../parts/overlay.tsx";
import { phaseNames } from "../../words/names.ts";
import type { Content } from "./recorder.ts";
import type { Standing } from "./standing.ts";

interface Properties {
  standing: Standing;
  at: string;
  onKeep: (content: Content) => void;
  onLeave: () => void;
}

/** Fire, regulator, by-pass, blower and safety valve: one tap each, to the other state; and the phases. */
export function StatePanel({ standing, at, onKeep, onLeave }: Properties) {
  const { fire, regulator, bypass, blower, valve } = standing;
  const acts: { words: string; now: string; content: Content }[] = [
    {
      words: fire === "lit" ? "Fire out" : "Fire lit",
      now: fire === null ? "not noted yet" : `is ${fire}`,
      content: { kind: "fire", state: fire === "lit" ? "out" : "lit" },
    },
    {
      words: regulator === "open" ? "Regulator shut" : "Regulator open",
      now: regulator === null ? "not noted yet" : `is ${regulator}`,
      content: { kind: "regulator", state: regulator === "open" ? "shut" : "open" },
    },
    {
      words: bypass === "shut" ? "By-pass open" : "By-pass shut",
      now: bypass === null ? "not noted yet" : `is ${bypass}`,
      content: { kind: "bypass", state: bypass === "shut" ? "open" : "shut" },
    },
    {
      words: blower === "on" ? "Blower off" : "Blower on",
      now: blower === null ? "not noted yet" : `is ${blower}`,
      content: { kind: "blower", state: blower === "on" ? "off" : "on" },
    },
    {
      words: valve === "lifts" ? "Valve reseats" : "Valve lifts",
      now: valve === null ? "safety valve" : valve === "lifts" ? "it is blowing" : "it is seated",
      content: { kind: "valve", state: valve === "lifts" ? "reseats" : "lifts" },
    },
  ];
  return (
    <Overlay title="Fire and valves" aside={`at ${at}`} kind="panel" onLeave={onLeave}>
      <div class="panel-keys">
        {acts.map(({ words, now, content }) => (
          <button key={content.kind} type="button" class="key" onClick={() => onKeep(content)}>
            {words}
            <span class="sub">{now}</span>
          </button>
        ))}
      </div>
      <div class="panel-keys phases">
        {(Object.keys(phaseNames) as (keyof typeof phaseNames)[]).map((name) => (
          <button
            key={name}
            type="button"
            class="key"
            aria-pressed={standing.phase === name}
            onClick={() => onKeep({ kind: "phase", name })}
          >
            {phaseNames[name]}
            <span class="sub">{standing.phase === name ? "goes on" : "phase begins"}</span>
          </button>
        ))}
      </div>
    </Overlay>
  );
}
