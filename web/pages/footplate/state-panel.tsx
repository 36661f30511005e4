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

const things = [
  ["fire", "Fire", "lit", "out"],
  ["regulator", "Regulator", "open", "shut"],
  ["bypass", "By-pass", "open", "shut"],
  ["blower", "Blower", "on", "off"],
  ["valve", "Valve", "lifts", "reseats"],
] as const;

/** Fire, regulator, by-pass, blower and safety valve, one tap for either state, always in the same places; and the phases. */
export function StatePanel({ standing, at, onKeep, onLeave }: Properties) {
  return (
    <Overlay title="Fire and valves" aside={`at ${at}`} kind="panel" onLeave={onLeave}>
      <div class="panel-keys">
        {things.flatMap(([kind, name, ...states]) =>
          states.map((state) => (
            <button
              key={kind + state}
              type="button"
              class="key"
              aria-pressed={standing[kind] === state}
              onClick={() => onKeep({ kind, state } as Content)}
            >
              {name} {state}
              <span class="sub">
                {standing[kind] === state
                  ? "as it stands"
                  : standing[kind] === null
                    ? "not noted yet"
                    : "from now"}
              </span>
            </button>
          )),
        )}
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
