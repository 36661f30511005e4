import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

interface Properties {
  title: string;
  /** beside the title, such as the moment that was stamped */
  aside?: string;
  /** the word of the way out */
  leave?: string;
  kind: string;
  onLeave: () => void;
  children: ComponentChildren;
}

/** A sheet over the whole page; the way out is always in the same corner, and Escape. */
export function Overlay({ title, aside, leave = "Back", kind, onLeave, children }: Properties) {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const before = document.activeElement;
    box.current?.focus();
    return () => {
      if (before instanceof HTMLElement) before.focus({ preventScroll: true });
    };
  }, []);
  return (
    <div
      class={`overlay ${kind}`}
      role="dialog"
      aria-modal="true"
      aria-label={title}
      tabIndex={-1}
      ref={box}
      onClick={(event) => {
        // a key that was tapped does not take the keyboard's Enter from the sheet
        const onButton = event.target instanceof Element && event.target.closest("button") !== null;
        if (onButton && event.detail > 0) box.current?.focus({ preventScroll: true });
      }}
      onKeyDown={(event) => {
        if (event.key === "Escape") onLeave();
      }}
    >
      <div class="overlay-head">
        <h2>
          {title}
          {aside !== undefined && <span class="unit"> {aside}</span>}
        </h2>
        <button type="button" class="leave" onClick={onLeave}>
          {leave}
        </button>
      </div>
      {children}
    </div>
  );
}
