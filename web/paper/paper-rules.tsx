/** How far apart one writes, and more lines than a page has room for. */
const apartMm = 6.6;
const most = 42;

/** Lines to write on, as many as fit; drawn, as a pattern of the ground comes out in lines of uneven weight. */
export function PaperRules() {
  return (
    <div class="paper-rules">
      <svg aria-hidden="true">
        {Array.from({ length: most }, (_, i) => (
          <line key={i} x1="0" x2="100%" y1={`${apartMm * (i + 1)}mm`} y2={`${apartMm * (i + 1)}mm`} />
        ))}
      </svg>
    </div>
  );
}
