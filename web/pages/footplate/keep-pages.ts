/** On a secure address the browser keeps the pages themselves: the Footplate then opens without the server. */
export function keepPagesHere(): void {
  if (!isSecureContext || !("serviceWorker" in navigator)) return;
  // refused in some private windows; the page works as on a plain address then
  navigator.serviceWorker.register("./offline.js").catch(() => undefined);
}
