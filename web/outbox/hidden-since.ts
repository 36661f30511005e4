/** Tells whether the page was hidden at any time since it was asked last: then the phone may have slept. */
export function hiddenSince(): () => boolean {
  if (typeof document === "undefined") return () => false;
  let was = document.hidden;
  document.addEventListener("visibilitychange", () => {
    was ||= document.hidden;
  });
  return () => {
    const before = was;
    was = document.hidden;
    return before;
  };
}
