import { useLayoutEffect } from "preact/hooks";

/**
 * Makes the browser's own way back close what lies open before it leaves the page. The step that is laid into the
 * browser's history stays there when a sheet is left otherwise, and does for the next.
 * @param covered whether something lies over the page
 */
export function useBackStep(covered: boolean, close: () => void): void {
  useLayoutEffect(() => {
    if (covered && history.state !== STEP) history.pushState(STEP, "");
    const { hash } = location;
    const stepped = () => {
      if (location.hash !== hash || history.state === STEP) return;
      if (covered) close();
      else history.back();
    };
    addEventListener("popstate", stepped);
    return () => removeEventListener("popstate", stepped);
  });
}

const STEP = "lapwater.open";
