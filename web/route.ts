import { computed, effect, signal } from "@preact/signals";

/** Where the reader is: `#/sheet/3f2a?from=10` is room "sheet", id "3f2a". */
export interface Route {
  room: string;
  id: string | null;
  query: URLSearchParams;
}

const hash = signal(location.hash);
addEventListener("hashchange", () => {
  hash.value = location.hash;
});

export const route = computed<Route>(() => {
  const [path = "", query = ""] = hash.value.replace(/^#\/?/, "").split("?", 2);
  const [room = "", id] = path.split("/");
  return {
    room: room === "" ? "shed" : room,
    id: id === undefined || id === "" ? null : decodeURIComponent(id),
    query: new URLSearchParams(query),
  };
});

export const sheetAddress = (steamingId: string): string => `#/sheet/${encodeURIComponent(steamingId)}`;

/** The recorder of a steaming. */
export const footplateAddress = (steamingId: string): string =>
  `#/footplate/${encodeURIComponent(steamingId)}`;

export function goTo(address: string): void {
  location.hash = address;
}

/** The same page with another address, without a step in the browser's history. */
export function replaceAddress(address: string): void {
  history.replaceState(null, "", address);
  hash.value = location.hash;
}

/** The sheet that was open last, so that the way back to it is one tap. */
export const lastSheet = signal<string | null>(null);
effect(() => {
  if (route.value.room === "sheet" && route.value.id !== null) lastSheet.value = route.value.id;
});
