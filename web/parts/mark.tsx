/** The marks that stand beside a word: drawn, so that no font decides whether they are there. */
const shapes = {
  caution: "M8 1.5 15.5 14.5H0.5Z",
  danger: "M2 2H14V14H2Z",
  done: "M1.5 8.5 6 13 14.5 3",
};

export function Mark({ of }: { of: keyof typeof shapes }) {
  const stroked = of === "done";
  return (
    <svg class="mark" viewBox="0 0 16 16" width="15" height="15" aria-hidden="true">
      <path
        d={shapes[of]}
        fill={stroked ? "none" : "currentColor"}
        stroke={stroked ? "currentColor" : "none"}
        stroke-width={2.5}
      />
    </svg>
  );
}
