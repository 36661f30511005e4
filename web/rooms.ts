import { computed } from "@preact/signals";
import type { ComponentType } from "preact";
import { FootplatePage } from "./pages/footplate/footplate-page.tsx";
import { later } from "./parts/later.tsx";
import { lastSheet, route, sheetAddress } from "./route.ts";

interface Room {
  path: string;
  name: string;
  address: () => string;
  page: ComponentType;
  /** reached by another way than the navigation */
  aside?: true;
}

/** A room that comes when it is entered. */
const room = (path: string, name: string, fetchPage: Parameters<typeof later>[1]): Room => ({
  path,
  name,
  address: () => `#/${path}`,
  page: later(name, fetchPage),
});

/**
 * The rooms in the order of the navigation; a new one is a line here. What the recorder beside the track needs comes
 * with the first load, as the server may be out of reach a moment later; the other rooms come when they are entered.
 */
export const rooms: readonly Room[] = [
  room("shed", "Shed", () => import("./pages/shed/shed-page.tsx")),
  { path: "footplate", name: "Footplate", address: () => "#/footplate", page: FootplatePage },
  {
    ...room("sheet", "Test sheet", () => import("./pages/sheet/sheet-page.tsx")),
    address: () => (lastSheet.value === null ? "#/sheet" : sheetAddress(lastSheet.value)),
  },
  room("compare", "Compare", () => import("./pages/compare/compare-page.tsx")),
  room("fitter", "Fitter's book", () => import("./pages/fitter/fitter-page.tsx")),
  room("tank-bench", "Tank bench", () => import("./pages/tank-bench/tank-bench-page.tsx")),
  room("logbook", "Logbook", () => import("./pages/logbook/logbook-page.tsx")),
  { ...room("pair", "Pair this phone", () => import("./pages/footplate/pair-page.tsx")), aside: true },
  { ...room("follow", "Follow", () => import("./pages/footplate/follow-page.tsx")), aside: true },
];

export const currentRoom = computed(() => rooms.find((room) => room.path === route.value.room) ?? null);
