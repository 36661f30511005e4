import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { Overlay } from "../../parts/overlay.tsx";
import { isBounce, type Touch, touchOf } from "./bounce.ts";
import { decimalsOf, isWhole, type Meaning, type PadSpec, stepped, typedValue } from "./pad-spec.ts";

interface Properties {
  spec: PadSpec;
  /** the clock at the tap that opened it: the time that will be kept */
  at: string;
  onLeave: () => void;
}

/** What is being put in: digits typed, or the last value moved by divisions. */
interface Typing {
  typed: string;
  moved: number | null;
}

/** No thumb taps one key twice so soon: the second touch is a bounce. */
const CHATTER_MS = 90;

export function usePad(spec: PadSpec) {
  const typing = useSignal<Typing>({ typed: "", moved: null });
  const meaning = useSignal(spec.meaning);
  const isUsual = useRef(true);
  // read at the tap itself: two taps may come before the page is drawn anew
  const of = (): Meaning | undefined => spec.meanings.find((each) => each.value === meaning.peek());
  const step = () => of()?.step ?? 1;
  const valueNow = () => {
    const { typed, moved } = typing.peek();
    const meant = of();
    return meant === undefined ? null : (typedValue(typed, meant, spec.near) ?? moved ?? meant.last);
  };
  const isOwn = () => typing.peek().typed !== "" || typing.peek().moved !== null;
  const isWholeWith = (more: string) => {
    const meant = of();
    return meant !== undefined && isWhole(typing.peek().typed + more, meant);
  };
  const keep = (as = meaning.peek(), byDigit = false) => {
    const value = valueNow();
    if (value !== null) spec.keep(value, as, byDigit && isUsual.current);
  };
  const tapped = useRef<Touch | null>(null);
  const bounces = (event: MouseEvent | undefined): boolean => {
    if (event === undefined || event.detail === 0) return false;
    const touch = touchOf(event);
    const before = tapped.current;
    tapped.current = touch;
    return before !== null && isBounce(before, touch, CHATTER_MS);
  };
  const press = (key: string, event?: MouseEvent) => {
    if (bounces(event)) return;
    const { typed } = typing.peek();
    if (key === "back") typing.value = { typed: typed.slice(0, -1), moved: null };
    else if (key !== "." || !typed.includes(".")) typing.value = { typed: typed + key, moved: null };
    if (key !== "back" && isWholeWith("")) keep(undefined, true);
  };
  const move = (by: 1 | -1) => {
    typing.value = { typed: "", moved: stepped(valueNow() ?? 0, step(), by) };
  };
  const set = (number: number) => {
    typing.value = { typed: "", moved: number };
  };
  /** with a number, or a second time, a meaning keeps it; else it says what the number will be */
  const mean = (as: string, event?: MouseEvent) => {
    if (bounces(event)) return;
    if (isOwn() || as === meaning.peek()) return keep(as);
    meaning.value = as;
    isUsual.current = false;
  };
  return {
    typing: typing.value,
    meaning: meaning.value,
    value: valueNow(),
    step: step(),
    own: isOwn(),
    /** a further digit keeps the number */
    isNearlyWhole: typing.value.typed !== "" && isWholeWith("0"),
    bounces,
    keep: () => keep(),
    press,
    move,
    set,
    mean,
  };
}
export type PadState = ReturnType<typeof usePad>;

/** Keys of a keyboard do what the pad's own keys do; one that is held down steps on, and types and keeps once. */
export function usePadKeys(pad: PadState): void {
  useLayoutEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const steps = { ArrowUp: 1, "+": 1, ArrowDown: -1, "-": -1 } as const;
      const by = steps[event.key as keyof typeof steps];
      if (by !== undefined) pad.move(by);
      else if (event.repeat) return;
      else if (/^\d$/.test(event.key)) pad.press(event.key);
      else if (event.key === "." || event.key === ",") pad.press(".");
      else if (event.key === "Backspace") pad.press("back");
      else if (event.key === "Enter" && !document.activeElement?.matches("button:focus-visible")) pad.keep();
      else return;
      event.preventDefault();
    };
    addEventListener("keydown", pressed);
    return () => removeEventListener("keydown", pressed);
  });
}

/** The number as it stands: the last one is ghosted until it is moved or another is typed. */
export function Display({ pad, spec }: { pad: PadState; spec: PadSpec }) {
  return (
    <p class={`display ${pad.own ? "" : "ghost"}`} aria-live="polite">
      <span class="display-value">
        {pad.value === null ? "–" : pad.value.toFixed(decimalsShown(pad.value, decimalsOf(pad.step)))}
      </span>{" "}
      <span class="unit">{spec.unit}</span>
      <span class="display-remark">
        {pad.own || pad.value === null ? "" : "the same as last time? "}
        {remarks(pad, spec)}
      </span>
    </p>
  );
}

const remarks = (pad: PadState, spec: PadSpec): string =>
  [
    pad.value === null ? undefined : spec.remark?.(pad.value, pad.meaning),
    pad.isNearlyWhole ? "the next digit keeps it" : undefined,
  ]
    .filter((words) => words !== undefined)
    .join("; ");

const decimalsShown = (value: number, decimals: number): number =>
  Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) < 1e-6
    ? decimals
    : Math.min(4, decimals + 2);

const digitKeys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0"];

/** The last key takes digits back, and where there are none it is the way out that lies under the thumb. */
export function DigitKeys({ pad, onLeave }: { pad: PadState; onLeave: () => void }) {
  return (
    <div class="digit-keys">
      {digitKeys.map((key) => (
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

/** Of so many there is room for all on the lowest screen. */
const ROOM_FOR = 3;

/** Where a number can be of several things, the things themselves are the keys that keep it; on a low screen the likely ones. */
function Meanings({ pad, spec }: { pad: PadState; spec: PadSpec }) {
  const isFew = useSignal(spec.meanings.length > ROOM_FOR);
  const rare = spec.meanings.filter(({ value }) => value !== pad.meaning).slice(ROOM_FOR - 2);
  return (
    <fieldset class={`meanings ${isFew.value ? "few" : ""}`}>
      <legend class="unseen">What the number is</legend>
      {spec.meanings.map((each) => {
        const { value, name, last } = each;
        const chosen = pad.meaning === value;
        const keeps = pad.own || (chosen && last !== null);
        return (
          <button
            key={value}
            type="button"
            class={`key meaning ${chosen ? "keep" : ""} ${rare.includes(each) ? "rare" : ""}`}
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
    <Overlay title={spec.title} aside={`at ${at}`} kind="pad" onLeave={onLeave}>
      <Display pad={pad} spec={spec} />
      <KeepKeys pad={pad} spec={spec} />
      <DigitKeys pad={pad} onLeave={onLeave} />
    </Overlay>
  );
}
