import { addresses } from "../../api/addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Sheet, SteamingSummary } from "../../api/shapes.ts";

/** The engine's sheets, the oldest first, and the place of one among them from 0; below 0 while it is not known. */
export interface AmongSheets {
  inOrder: readonly SteamingSummary[];
  place: number;
}

export function useAmongSheets({ steaming, locomotive }: Sheet): AmongSheets {
  const { loaded } = useLoaded<SteamingSummary[]>(
    `${addresses.steamings}?locomotiveId=${encodeURIComponent(locomotive.id)}`,
  );
  const inOrder = [...(loaded.value.value ?? [])].sort(
    (a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt),
  );
  return { inOrder, place: inOrder.findIndex((other) => other.id === steaming.id) };
}
