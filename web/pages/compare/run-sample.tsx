import type { Marker } from "../../charts/spec.ts";
import type { RunStyle } from "./run-styles.ts";

const shapes: Record<Exclude<Marker, "none">, string> = {
  circle: "M15 8a5 5 0 1 0 10 0a5 5 0 1 0 -10 0Z",
  triangle: "M20 2.5L26 13H14Z",
  square: "M15.5 3.5H24.5V12.5H15.5Z",
  diamond: "M20 2L26 8L20 14L14 8Z",
  cross: "M15.5 3.5L24.5 12.5M24.5 3.5L15.5 12.5",
  star: "M20 2V14M14.5 5L25.5 11M25.5 5L14.5 11",
};

/** A piece of the run's line as the charts draw it. */
export function RunSample({ style }: { style: RunStyle }) {
  const colour = `var(--${style.colour})`;
  const open = style.marker === "cross" || style.marker === "star";
  return (
    <svg class="run-sample" viewBox="0 0 40 16" width="40" height="16" aria-hidden="true">
      <path
        d="M0 8H40"
        stroke={colour}
        stroke-width="2"
        stroke-dasharray={style.dash.join(" ")}
        fill="none"
      />
      {style.marker !== "none" && (
        <path
          d={shapes[style.marker]}
          stroke={colour}
          stroke-width="2"
          fill={open ? "none" : style.hollow ? "var(--paper)" : colour}
        />
      )}
    </svg>
  );
}
