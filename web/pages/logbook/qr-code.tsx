import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";

/** Modules of quiet ground around the code that a camera needs (ISO/IEC 18004: four). */
const QUIET = 4;

/** A text as a square for a camera: dark on light in every theme. Where its script does not come there is none. */
export function QrCode({ text, name }: { text: string; name: string }) {
  const drawn = useSignal<{ size: number; path: string } | null>(null);
  useEffect(() => {
    let left = false;
    drawn.value = null;
    const draw = async () => {
      const { encode } = await import("uqr");
      const { size, data } = encode(text, { border: QUIET });
      if (!left) drawn.value = { size, path: pathOf(data) };
    };
    // the words beside it say the same
    void draw().catch(() => undefined);
    return () => {
      left = true;
    };
  }, [text, drawn]);
  if (drawn.value === null) return null;
  const { size, path } = drawn.value;
  return (
    <svg
      class="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={`${name}, for a camera`}
      shape-rendering="crispEdges"
    >
      <rect width={size} height={size} fill="white" />
      <path d={path} fill="black" />
    </svg>
  );
}

const pathOf = (rows: readonly (readonly boolean[])[]): string =>
  rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ""))).join("");
