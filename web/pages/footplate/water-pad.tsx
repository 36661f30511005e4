import type { Boiler } from "../../../src/logbook/locomotive.ts";
import { Overlay } from "../../parts/overlay.tsx";
import { chooseFootplate, type FootplateChoices, footplate } from "../../preferences/footplate.ts";
import { Glass, glassOf, Quarters } from "./glass.tsx";
import { BackKey, DigitKeys, Display, KeepKeys } from "./pad.tsx";
import type { PadSpec } from "./pad-spec.ts";
import { usePad, usePadKeys } from "./use-pad.ts";

interface Properties {
  spec: PadSpec;
  boiler: Boiler;
  /** mm as they are shown */
  shownOfMm: (mm: number) => number;
  at: string;
  onLeave: () => void;
}

const ways: readonly (readonly [FootplateChoices["levelBy"], string])[] = [
  ["glass", "on the glass"],
  ["figures", "in figures"],
  ["quarters", "in quarters"],
];

/** The level by a tap on a drawn glass, in figures, or in quarters between the nuts. */
export function WaterPad({ spec, boiler, shownOfMm, at, onLeave }: Properties) {
  const pad = usePad(spec);
  usePadKeys(pad);
  const glass = glassOf(boiler, shownOfMm);
  const unit = spec.meanings[0]?.unit ?? "";
  const { levelBy: by, hand } = footplate.value;
  return (
    <Overlay title={spec.title} aside={`at ${at}`} kind={`pad water by-${by} hand-${hand}`} onLeave={onLeave}>
      <fieldset class="ways">
        <legend class="unseen">How the water is read</legend>
        {ways.map(([way, name]) => (
          <button
            key={way}
            type="button"
            aria-pressed={by === way}
            onClick={() => chooseFootplate({ levelBy: way })}
          >
            {name}
          </button>
        ))}
      </fieldset>
      <Display pad={pad} spec={spec} />
      {by === "glass" && (
        <Glass
          glass={glass}
          value={pad.value}
          ghost={!pad.own}
          step={pad.step}
          unit={unit}
          onValue={pad.set}
        />
      )}
      {by === "quarters" && (
        <Quarters glass={glass} step={pad.step} onRead={spec.keep}>
          <BackKey onLeave={onLeave} />
        </Quarters>
      )}
      {by !== "quarters" && <KeepKeys pad={pad} spec={spec} />}
      {by === "glass" && <BackKey onLeave={onLeave} />}
      {by === "figures" && <DigitKeys pad={pad} onLeave={onLeave} />}
    </Overlay>
  );
}
