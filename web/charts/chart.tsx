import { effect, type Signal, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { printing, theme } from "../preferences/theme.ts";
import type { Drawn } from "./draw.ts";
import type { ChartSpec } from "./spec.ts";

interface Properties {
  spec: ChartSpec;
  heightPx: number;
  /** what the chart shows, for those who do not see it */
  sentence: string;
  /** the moment that is read, shared by charts on one time axis */
  momentS?: Signal<number | null>;
}

/** On paper charts are lower, so that one steaming's fit a sheet. */
const paperShare = 0.72;

/** A drawn chart. The drawing library comes only when the first chart is shown. */
export function Chart({ spec, heightPx, sentence, momentS }: Properties) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const failed = useSignal(false);

  useEffect(() => {
    let drawn: Drawn | null = null;
    let gone = false;
    const endings: (() => void)[] = [];
    const begin = async () => {
      const [{ draw }] = await Promise.all([import("./draw.ts"), document.fonts.ready]);
      if (gone || canvas.current === null) return;
      const element = canvas.current;
      endings.push(
        effect(() => {
          void theme.value;
          drawn?.destroy();
          const height = printing.value && spec.kind === "lines" ? paperShare * heightPx : heightPx;
          if (box.current !== null) box.current.style.height = `${height}px`;
          drawn = draw(
            element,
            spec,
            () => (printing.peek() ? null : (momentS?.peek() ?? null)),
            printing.value,
          );
          element.dataset.drawn = "yes";
        }),
        effect(() => {
          void momentS?.value;
          drawn?.redraw();
        }),
      );
      if (momentS !== undefined) {
        const read = (event: PointerEvent) => {
          momentS.value = drawn?.momentAt(event.offsetX) ?? momentS.peek();
        };
        element.addEventListener("pointermove", read);
        element.addEventListener("pointerdown", read);
        endings.push(() => {
          element.removeEventListener("pointermove", read);
          element.removeEventListener("pointerdown", read);
        });
      }
    };
    begin().catch(() => {
      failed.value = true;
    });
    return () => {
      gone = true;
      for (const end of endings) end();
      drawn?.destroy();
    };
  }, [spec, heightPx, momentS, failed]);

  if (failed.value) return <p class="soft">The chart could not be drawn; its table holds the same.</p>;
  return (
    <div class="chart-box" ref={box} style={{ height: `${heightPx}px` }}>
      <canvas ref={canvas} role="img" aria-label={sentence} />
    </div>
  );
}
