import { useEffect, useRef } from "preact/hooks";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Layout } from "../../../src/sizing/layout.ts";
import { piecesOf } from "../../../src/sizing/sheet-pieces.ts";
import { A4, templatePages } from "../../../src/sizing/templates.ts";
import { ItemView, PX_PER_MM } from "./drawing-view.tsx";

interface Properties {
  engine: Locomotive;
  layout: Layout;
  bendFactor: number | undefined;
  onLeave: () => void;
}

/** Every piece full size on A4. As long as they are open, a print is of them and of nothing else. */
export function TemplatesView({ engine, layout, bendFactor, onLeave }: Properties) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => {
    // a box that scrolls must be reached by the keyboard
    if (box.current !== null) box.current.tabIndex = 0;
    document.documentElement.dataset.print = "templates";
    return () => {
      delete document.documentElement.dataset.print;
    };
  }, []);
  const pages = templatePages(piecesOf(engine, layout, bendFactor));
  return (
    <section class="templates" aria-label="Templates">
      <div class="page-head on-screen">
        <h2>Templates, full size</h2>
        <div class="actions">
          <button type="button" class="primary" onClick={() => print()}>
            Print {pages.length} {pages.length === 1 ? "page" : "pages"}
          </button>
          <button type="button" onClick={onLeave}>
            Put the templates away
          </button>
        </div>
      </div>
      <p class="hint on-screen">
        Print on A4 at 100 %, never "fit to page", and measure the bar at the foot before cutting. Pieces
        larger than a page go over several: lay their crosses over one another. Cut along the full lines; each
        bend lies between two broken ones. One of a pair is used turned over.
      </p>
      <section class="template-pages" ref={box} aria-label="Pages of templates">
        {pages.map((page) => (
          <svg
            key={page.title}
            class="template-page"
            role="img"
            aria-label={page.title}
            viewBox={`0 0 ${A4.widthMm * PX_PER_MM} ${A4.heightMm * PX_PER_MM}`}
          >
            {page.items.map((item, i) => (
              <ItemView key={`${item.kind} ${String(i)}`} item={item} scale={PX_PER_MM} />
            ))}
          </svg>
        ))}
      </section>
    </section>
  );
}
