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

/**
 * The rooms in the order of the navigation; a new one is a line here. What the recorder beside the track needs comes
 * with the first load, as the server may be out of reach a moment later; the other rooms come when they are entered.
 */
export const rooms: readonly Room[] = [
  {
    path: "shed",
    name: "Shed",
    address: () => "#/shed",
    page: later("Shed", () => import("./pages/shed/shed-page.tsx").then((room) => room.ShedPage)),
  },
  { path: "footplate", name: "Footplate", address: () => "#/footplate", page: FootplatePage },
  {
    path: "sheet",
    name: "Test sheet",
    address: () => (lastSheet.value === null ? "#/sheet" : sheetAddress(lastSheet.value)),
    page: later("Test sheet", () => import("./pages/sheet/sheet-page.tsx").then((room) => room.SheetPage)),
  },
  {
    path: "compare",
    name: "Compare",
    address: () => "#/compare",
    page: later("Compare", () => import("./pages/compare/compare-page.tsx").then((room) => room.ComparePage)),
  },
  {
    path: "fitter",
    name: "Fitter's book",
    address: () => "#/fitter",
    page: later("Fitter's book", () =>
      import("./pages/fitter/fitter-page.tsx").then((room) => room.FitterPage),
    ),
  },
  {
    path: "tank-bench",
    name: "Tank bench",
    address: () => "#/tank-bench",
    page: later("Tank bench", () =>
      import("./pages/tank-bench/tank-bench-page.tsx").then((room) => room.TankBenchPage),
    ),
  },
  {
    path: "logbook",
    name: "Logbook",
    address: () => "#/logbook",
    page: later("Logbook", () => import("./pages/logbook/logbook-page.tsx").then((room) => room.LogbookPage)),
  },
  {
    path: "pair",
    name: "Pair a phone",
    address: () => "#/pair",
    page: later("Pair this phone", () =>
      import("./pages/footplate/pair-page.tsx").then((room) => room.PairPage),
    ),
    aside: true,
  },
  {
    path: "follow",
    name: "Follow",
    address: () => "#/follow",
    page: later("Follow", () => import("./pages/footplate/follow-page.tsx").then((room) => room.FollowPage)),
    aside: true,
  },
];

export const currentRoom = computed(() => rooms.find((room) => room.path === route.value.room) ?? null);
