import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { isBounce, type Touch, touchOf } from "./bounce.ts";
import { isWhole, type Meaning, MINUS, type PadSpec, stepped, typedValue } from "./pad-spec.ts";

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
  // read at the tap itself: two taps may come before the page is drawn anew
  const of = (): Meaning | undefined => spec.meanings.find((each) => each.value === meaning.peek());
  const step = () => of()?.step ?? 1;
  /** a number is chosen in two taps rather than typed */
  const isChosen = useSignal(of()?.least !== undefined);
  const valueNow = () => {
    const { typed, moved } = typing.peek();
    const meant = of();
    return meant === undefined ? null : (typedValue(typed, meant) ?? moved ?? meant.last);
  };
  const isOwn = () => typing.peek().typed !== "" || typing.peek().moved !== null;
  const isWholeWith = (more: string) => {
    const meant = of();
    return meant !== undefined && isWhole(typing.peek().typed + more, meant);
  };
  const keep = (as = meaning.peek()) => {
    const value = valueNow();
    if (value !== null) spec.keep(value, as);
  };
  const tapped = useRef<Touch | null>(null);
  const bounces = (event: MouseEvent | undefined, withinMs = CHATTER_MS): boolean => {
    if (event === undefined || event.detail === 0) return false;
    const touch = touchOf(event);
    const before = tapped.current;
    tapped.current = touch;
    return before !== null && isBounce(before, touch, withinMs);
  };
  const press = (key: string, event?: MouseEvent) => {
    if (bounces(event)) return;
    const { typed } = typing.peek();
    if (key === "back") typing.value = { typed: typed.slice(0, -1), moved: null };
    else if (key === MINUS)
      typing.value = { typed: typed.startsWith(MINUS) ? typed.slice(1) : MINUS + typed, moved: null };
    else if (key !== "." || !typed.includes(".")) typing.value = { typed: typed + key, moved: null };
    isChosen.value = false;
    if (key !== "back" && isWholeWith("")) keep();
  };
  const move = (by: 1 | -1) => {
    isChosen.value = false;
    typing.value = { typed: "", moved: stepped(valueNow() ?? 0, step(), by, of()?.below && -Infinity) };
  };
  const set = (number: number) => {
    typing.value = { typed: "", moved: number };
  };
  /** with a number, or where it stands chosen, a meaning keeps it; else the number is chosen next */
  const mean = (as: string, event?: MouseEvent) => {
    if (bounces(event)) return;
    if (isOwn() || as === meaning.peek()) return keep(as);
    meaning.value = as;
    isChosen.value = true;
  };
  return {
    typing: typing.value,
    meant: of(),
    isChosen: isChosen.value,
    choose: (number: number) => spec.keep(number, meaning.peek()),
    value: valueNow(),
    step: step(),
    own: isOwn(),
    /** a further digit keeps the number */
    isNearlyWhole: typing.value.typed !== "" && isWholeWith("0"),
    bounces,
    /** not what is out of sight */
    keep: () => {
      if (!isChosen.peek()) keep();
    },
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
