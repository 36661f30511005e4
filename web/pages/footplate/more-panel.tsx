import { Overlay } from "../../parts/overlay.tsx";
import { FootplateSettings } from "./footplate-settings.tsx";
import type { Plain } from "./opening.ts";
import { type Thermometer, thermometers } from "./pads.ts";
import type { Recorder } from "./recorder.ts";

interface Properties {
  recorder: Recorder;
  onShow: (what: Plain | "lock") => void;
  onFinish: () => void;
  onLeave: () => void;
}

const keys: readonly (readonly [what: Plain | "lock", name: string, sub?: string])[] = [
  ["list", "All entries", "change, take out"],
  ["note", "Note"],
  ["particulars", "Particulars", "title, track, train"],
  ["lock", "Lock", "rain, pocket"],
  ...(Object.keys(thermometers) as Thermometer[]).map(
    (where) => [where, thermometers[where][0], "temperature"] as const,
  ),
];

export function MorePanel({ recorder, onShow, onFinish, onLeave }: Properties) {
  return (
    <Overlay title="More" kind="panel more" onLeave={onLeave}>
      <div class="panel-keys">
        {keys.map(([what, name, sub]) => (
          <button key={what} type="button" class="key" onClick={() => onShow(what)}>
            {name}
            {sub !== undefined && <span class="sub">{sub}</span>}
          </button>
        ))}
        <button type="button" class="key" onClick={() => void recorder.saveCopy()}>
          Save a copy<span class="sub">to a file here</span>
        </button>
      </div>
      <FootplateSettings />
      <div class="actions">
        <a class="button" href="#/shed">
          To the Shed
        </a>
        <button type="button" onClick={onFinish}>
          This steaming is over
        </button>
      </div>
      <p class="hint">
        Keys: L lap, P pressure, W water, F feed, U fuel, V valves, D fittings, N note, Z undo. A clicker's
        Page Down counts a lap whatever lies open, Page Up takes it back.
      </p>
    </Overlay>
  );
}
