import { useSignal } from "@preact/signals";
import { serverMsOf } from "../../outbox/clock.ts";
import type { EntryRecord, RawTime } from "../../outbox/database.ts";
import { secondsSince } from "../../outbox/stamp.ts";
import { showing, toShown } from "../../preferences/shown.ts";
import { fittingName } from "../../words/entry-words.ts";
import { clockOf } from "../../words/time.ts";
import { ChangePanel } from "./change-panel.tsx";
import { endDrip } from "./drips.ts";
import { FittingsPanel } from "./fittings-panel.tsx";
import { ListPanel } from "./list-panel.tsx";
import { MorePanel } from "./more-panel.tsx";
import { NotePanel } from "./note-panel.tsx";
import type { Opening, Plain } from "./opening.ts";
import { Pad } from "./pad.tsx";
import type { PadSpec } from "./pad-spec.ts";
import {
  type Asking,
  dripAsking,
  feedAsking,
  fuelAsking,
  pressureAsking,
  strokesAsking,
  temperatureAsking,
  waterAsking,
} from "./pads.ts";
import { ParticularsPanel } from "./particulars-panel.tsx";
import type { Content, Recorder } from "./recorder.ts";
import type { Standing } from "./standing.ts";
import { StatePanel } from "./state-panel.tsx";
import { WaterPad } from "./water-pad.tsx";

interface Properties {
  opening: Opening;
  recorder: Recorder;
  standing: Standing;
  onKeep: (content: Content, raw?: RawTime) => void;
  onCatch: (fitting: string) => void;
  onShow: (what: Plain | "lock") => void;
  onChange: (record: EntryRecord) => void;
  onFinish: () => void;
  onLeave: () => void;
}

export function Opened(properties: Properties) {
  const { opening, recorder, standing, onKeep, onLeave } = properties;
  const { head, engine } = recorder.steaming.value;
  const entries = recorder.entries.peek();
  const at = clockOf(Math.floor(secondsSince(head.startedAt, opening.raw)));
  const isWaterTest = head.purpose === "cold-hold";
  const strokes = useSignal<number | null>(null);
  const pad = (asking: Asking, done?: () => void) => {
    const { content, ...rest } = asking;
    const spec: PadSpec = {
      ...rest,
      keep: (value, meaning) => {
        done?.();
        onKeep(content(value, meaning), opening.raw);
      },
    };
    return { spec, at, onLeave };
  };
  switch (opening.what) {
    case "pressure":
      return <Pad {...pad(pressureAsking(engine, entries, isWaterTest))} />;
    case "water": {
      const as = showing("mm");
      return (
        <WaterPad
          {...pad(waterAsking(engine, entries))}
          boiler={engine.boiler}
          shownOfMm={(mm) => toShown(mm, as)}
        />
      );
    }
    case "feed":
      return <Pad {...pad(feedAsking(engine, entries))} />;
    case "fuel":
      return <Pad {...pad(fuelAsking(engine, entries))} />;
    case "strokes": {
      const count = strokes.value;
      if (count === null) {
        const { spec, ...rest } = pad(strokesAsking(entries));
        const keep = (value: number) => {
          strokes.value = Math.round(value);
        };
        return <Pad key="strokes" {...rest} spec={{ ...spec, keep }} />;
      }
      const reached = pressureAsking(engine, entries, isWaterTest);
      return (
        <Pad
          key="reached"
          {...pad({
            ...reached,
            title: `${count} strokes: to what pressure?`,
            content: (value) => ({ ...reached.content(value, ""), kind: "strokes", count }) as Content,
          })}
        />
      );
    }
    case "ambient":
    case "feed-water":
    case "boiler":
    case "flue":
      return <Pad {...pad(temperatureAsking(opening.what, entries))} />;
    case "states":
      return (
        <StatePanel
          standing={standing}
          at={at}
          onKeep={(content) => onKeep(content, opening.raw)}
          onLeave={onLeave}
        />
      );
    case "fittings":
      return (
        <FittingsPanel
          engine={engine}
          entries={entries}
          at={at}
          onLook={(fitting, grade) => onKeep({ kind: "look", fitting, grade }, opening.raw)}
          onCatch={properties.onCatch}
          onLeave={onLeave}
        />
      );
    case "note":
      return (
        <NotePanel at={at} onKeep={(text) => onKeep({ kind: "note", text }, opening.raw)} onLeave={onLeave} />
      );
    case "particulars":
      return <ParticularsPanel recorder={recorder} onLeave={onLeave} />;
    case "list":
      return <ListPanel recorder={recorder} onChange={properties.onChange} onLeave={onLeave} />;
    case "more":
      return (
        <MorePanel
          recorder={recorder}
          onShow={properties.onShow}
          onFinish={properties.onFinish}
          onLeave={onLeave}
        />
      );
    case "drip": {
      if (!("drip" in opening)) return null;
      const { drip, raw } = opening;
      const name = fittingName(drip.fitting, engine);
      const overS = (serverMsOf(raw) - serverMsOf(drip.began)) / 1000;
      return <Pad {...pad(dripAsking(engine, drip.fitting, name, overS), () => endDrip(drip))} />;
    }
    case "change":
      return "record" in opening ? (
        <ChangePanel record={opening.record} recorder={recorder} onLeave={onLeave} />
      ) : null;
  }
}
