import { computed } from "@preact/signals";
import type { ComponentType } from "preact";
import { ComparePage } from "./pages/compare/compare-page.tsx";
import { ShedPage } from "./pages/shed/shed-page.tsx";
import { SheetPage } from "./pages/sheet/sheet-page.tsx";
import { lastSheet, route, sheetAddress } from "./route.ts";

interface Room {
  path: string;
  name: string;
  address: () => string;
  page: ComponentType;
}

/** The rooms in the order of the navigation; a new one is a line here. */
export const rooms: readonly Room[] = [
  { path: "shed", name: "Shed", address: () => "#/shed", page: ShedPage },
  {
    path: "sheet",
    name: "Test sheet",
    address: () => (lastSheet.value === null ? "#/sheet" : sheetAddress(lastSheet.value)),
    page: SheetPage,
  },
  { path: "compare", name: "Compare", address: () => "#/compare", page: ComparePage },
];

export const currentRoom = computed(() => rooms.find((room) => room.path === route.value.room) ?? null);
