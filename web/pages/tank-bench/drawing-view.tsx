import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Drawing, Item, Point } from "../../../src/sizing/drawing.ts";

/** No word is smaller on a screen. */
const LEAST_PX = 14;

/** CSS pixels of a millimetre on paper. */
export const PX_PER_MM = 96 / 25.4;

const path = (points: readonly Point[], closed: boolean, scale: number): string =>
  `M${points.map(([x, y]) => `${(x * scale).toFixed(3)} ${(y * scale).toFixed(3)}`).join("L")}${closed ? "Z" : ""}`;

/** One line or word of a drawing at so many pixels a millimetre. */
export function ItemView({ item, scale }: { item: Item; scale: number }) {
  switch (item.kind) {
    case "line":
      return <path class={`stroke-${item.stroke}`} d={path(item.points, item.closed, scale)} />;
    case "circle":
      return (
        <circle
          class={`stroke-${item.stroke}`}
          cx={item.centre[0] * scale}
          cy={item.centre[1] * scale}
          r={item.radiusMm * scale}
        />
      );
    case "text": {
      const [x, y] = [item.at[0] * scale, item.at[1] * scale];
      return (
        <text
          x={x}
          y={y}
          font-size={Math.max(LEAST_PX, item.sizeMm * scale)}
          text-anchor={item.anchor}
          {...(item.upright === true ? { transform: `rotate(-90 ${x} ${y})` } : {})}
        >
          {item.text}
        </text>
      );
    }
  }
}

/** Letters of a drawing on the screen. */
export const LETTERS_PX = 15;
const HIGHEST_PX = 460;
/** A small tank is not drawn larger than this, so that it looks the smaller beside the engine. */
const LARGEST_SCALE = 6;

/** The width that a place on the page has, px. */
export function useWidth<Place extends HTMLElement>() {
  const place = useRef<Place>(null);
  const width = useSignal(340);
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return;
    const measure = () => {
      width.value = Math.max(200, Math.floor(element.clientWidth));
    };
    measure();
    const watcher = new ResizeObserver(measure);
    watcher.observe(element);
    return () => watcher.disconnect();
  }, [width]);
  return { place, width: width.value };
}

interface Properties {
  /** the drawing with letters of this height, mm */
  drawn: (lettersMm: number) => Drawing;
}

/** A drawing as large as its place lets it be, its letters always large enough to read. */
export function DrawingView({ drawn }: Properties) {
  const { place, width } = useWidth<HTMLElement>();
  // letters take room of their own: from a rough scale their size is known, and from that the scale
  const scaleOf = (one: Drawing) => Math.min(width / one.widthMm, HIGHEST_PX / one.heightMm, LARGEST_SCALE);
  const final = drawn(LETTERS_PX / scaleOf(drawn(3)));
  const scale = scaleOf(final);
  const [w, h] = [final.widthMm * scale, final.heightMm * scale];
  return (
    <figure class="bench-drawing">
      <figcaption ref={place}>{final.title}</figcaption>
      <svg
        role="img"
        aria-label={final.sentence}
        width={Math.min(width, w)}
        viewBox={`${final.leftMm * scale} ${final.topMm * scale} ${w} ${h}`}
      >
        {final.items.map((item, i) => (
          <ItemView key={`${item.kind} ${String(i)}`} item={item} scale={scale} />
        ))}
      </svg>
    </figure>
  );
}
