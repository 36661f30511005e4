import { useSignal } from "@preact/signals";
import { OPENED_MS } from "./bounce.ts";
import { type Decade, decadesOf, decimalsOf, type Meaning, rounded } from "./pad-spec.ts";
import type { PadState } from "./use-pad.ts";

/** A number in two taps, each key named by what it leads to: first about how much, then exactly. */
export function Decades({ pad, meant }: { pad: PadState; meant: Meaning }) {
  const begun = useSignal<Decade | null>(null);
  const decade = begun.value;
  const decimals = decimalsOf(meant.step);
  // the keys change under the finger
  const tap = (act: () => void) => (event: MouseEvent) => {
    if (!pad.bounces(event, OPENED_MS)) act();
  };
  const go = (to: Decade | null) => {
    begun.value = to;
  };
  const keys =
    decade === null
      ? decadesOf(meant).map((each) => ({ number: each.from, act: () => go(each) }))
      : Array.from({ length: 10 }, (_, i) => rounded(decade.from + i * decade.by)).map((number) => ({
          number,
          act: () => pad.choose(number),
        }));
  return (
    <>
      <p class="by-tens-of">
        {meant.name} {meant.name.includes(meant.unit) ? "" : meant.unit}
        {decade === null ? ", about" : ""}
      </p>
      <div class="digit-keys">
        {keys.map(({ number, act }) => (
          <button key={number} type="button" class="key" onClick={tap(act)}>
            {number.toFixed(decimals)}
          </button>
        ))}
        <button
          type="button"
          class="key back-key"
          onClick={tap(() => (decade === null ? pad.press("back") : go(null)))}
        >
          {decade === null ? "Type it" : "Back"}
        </button>
      </div>
    </>
  );
}
