import { useSignal } from "@preact/signals";
import { Overlay } from "../../parts/overlay.tsx";
import { Decades } from "./decades.tsx";
import { decimalsOf, type Meaning, MINUS, type PadSpec, rounded } from "./pad-spec.ts";
import { type PadState, usePad, usePadKeys } from "./use-pad.ts";

interface Properties {
  spec: PadSpec;
  /** the clock at the tap that opened it: the time that will be kept */
  at: string;
  onLeave: () => void;
}

/** The number as it stands: the last one is ghosted until it is moved or another is typed. */
export function Display({ pad, spec }: { pad: PadState; spec: PadSpec }) {
  return (
    <p class={`display ${pad.own ? "" : "ghost"}`} aria-live="polite">
      <span class="display-value">
        {pad.value === null ? "–" : pad.value.toFixed(decimalsShown(pad.value, decimalsOf(pad.step)))}
      </span>{" "}
      <span class="unit">{pad.meant?.unit}</span>
      <span class="display-remark">{remarks(pad, spec)}</span>
    </p>
  );
}

const remarks = (pad: PadState, spec: PadSpec): string => {
  const name = pad.meant?.name.replace(`, ${pad.meant.unit}`, "") ?? "";
  return [
    pad.own || pad.value === null ? name : `the same as last time? ${name}`,
    pad.value === null ? "" : spec.remark?.(pad.value, pad.meant?.value ?? ""),
    pad.isNearlyWhole ? "the next digit keeps it" : "",
  ]
    .filter(Boolean)
    .join("; ");
};

const decimalsShown = (value: number, decimals: number): number =>
  rounded(value * 10 ** decimals) % 1 === 0 ? decimals : Math.min(4, decimals + 2);

const digitKeys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0"];

/** The last key takes digits back, and where there are none it is the way out that lies under the thumb. */
export function DigitKeys({ pad, onLeave }: { pad: PadState; onLeave: () => void }) {
  return (
    <div class="digit-keys">
      {digitKeys
        .map((key) => (key === "." && pad.meant?.below ? MINUS : key))
        .map((key) => (
          <button key={key} type="button" class="key" onClick={(event) => pad.press(key, event)}>
            {key}
          </button>
        ))}
      {pad.own ? (
        <button
          type="button"
          class="key"
          aria-label="take the last digit back"
          onClick={(event) => pad.press("back", event)}
        >
          ⌫
        </button>
      ) : (
        <BackKey onLeave={onLeave} />
      )}
    </div>
  );
}

/** The way out that lies under the thumb. */
export const BackKey = ({ onLeave }: { onLeave: () => void }) => (
  <button type="button" class="key back-key" onClick={onLeave}>
    Back
  </button>
);

export function KeepKeys({ pad, spec }: { pad: PadState; spec: PadSpec }) {
  if (spec.meanings.length > 1) return <Meanings pad={pad} spec={spec} />;
  return (
    <div class="keep-keys">
      <button type="button" class="key step" aria-label="one division less" onClick={() => pad.move(-1)}>
        −
      </button>
      <button type="button" class="key keep" disabled={pad.value === null} onClick={() => pad.keep()}>
        Keep
      </button>
      <button type="button" class="key step" aria-label="one division more" onClick={() => pad.move(1)}>
        +
      </button>
    </div>
  );
}

/** Of so many there is room for all on the lowest screen, and of so many on others. */
const ROOM_FOR = 3;
const ROOM_ELSEWHERE = 6;

/** Where a number can be of several things, the things themselves are the keys that keep it; on a low screen the likely ones. */
function Meanings({ pad, spec }: { pad: PadState; spec: PadSpec }) {
  const isFew = useSignal(spec.meanings.length > ROOM_FOR);
  // once a number is typed, a larger one is not meant
  const meanings = spec.meanings.filter(({ least }) => least === undefined || !pad.own);
  const others = meanings.filter(({ value }) => value !== pad.meant?.value);
  const isMany = isFew.value && spec.meanings.length > ROOM_ELSEWHERE;
  const hidden = (each: Meaning) => {
    const place = others.indexOf(each);
    return place < ROOM_FOR - 2 ? "" : place < ROOM_ELSEWHERE - 2 ? "rare" : "rare rarest";
  };
  return (
    <fieldset class={`meanings ${isFew.value ? "few" : ""} ${isMany ? "many" : ""}`}>
      <legend class="unseen">What the number is</legend>
      {meanings.map((each) => {
        const { value, name, last } = each;
        const chosen = pad.meant?.value === value;
        const keeps = pad.own || (chosen && last !== null);
        return (
          <button
            key={value}
            type="button"
            class={`key meaning ${chosen ? "keep" : ""} ${hidden(each)}`}
            aria-pressed={chosen}
            onClick={(event) => pad.mean(value, event)}
          >
            {name}
            <span class="sub">{keeps ? "keep" : chosen ? "type it" : "choose"}</span>
          </button>
        );
      })}
      {isFew.value && (
        <button
          type="button"
          class="key meaning others"
          onClick={(event) => {
            if (!pad.bounces(event)) isFew.value = false;
          }}
        >
          other<span class="sub">show all</span>
        </button>
      )}
    </fieldset>
  );
}

/** The own number pad: nothing comes up over it, and no key is smaller than a wet thumb. */
export function Pad({ spec, at, onLeave }: Properties) {
  const pad = usePad(spec);
  usePadKeys(pad);
  return (
    <Overlay
      title={spec.title}
      aside={`at ${at}`}
      kind={`pad ${pad.isChosen ? "by-tens" : ""}`}
      onLeave={onLeave}
    >
      {pad.isChosen && pad.meant !== undefined ? (
        <Decades pad={pad} meant={pad.meant} />
      ) : (
        <>
          <Display pad={pad} spec={spec} />
          <KeepKeys pad={pad} spec={spec} />
          <DigitKeys pad={pad} onLeave={onLeave} />
        </>
      )}
    </Overlay>
  );
}
