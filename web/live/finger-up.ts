/** A click follows its finger's lifting by no more, ms. */
const CLICK_MS = 50;

let pressed = false;
let waiting: (() => void)[] = [];

function lifted(): void {
  pressed = false;
  for (const go of waiting) go();
  waiting = [];
}

const press = ({ buttons }: PointerEvent): void => {
  if (buttons > 0) pressed = true;
  // lifted where nobody told it: outside the window, or over a menu
  else if (pressed) lifted();
};
for (const move of ["pointerdown", "pointermove"] as const) addEventListener(move, press, true);
for (const end of ["pointerup", "pointercancel"])
  addEventListener(end, () => void setTimeout(lifted, CLICK_MS), true);

/** At once, or when the finger is off the page: a tap during which the page moves falls on something else. */
export const fingerUp = (): Promise<void> =>
  pressed ? new Promise((go) => waiting.push(go)) : Promise.resolve();
