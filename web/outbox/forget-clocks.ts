import { outbox } from "./database.ts";
import { type Epoch, lastSeenFirst } from "./phone-clock.ts";

/** So many sittings are kept (our choice). */
const SITTINGS = 20;

/** Stretches of sittings that are long gone. @param unsettled those by which times are still to be settled */
export function unneeded(epochs: readonly Epoch[], unsettled: ReadonlySet<string>): Epoch[] {
  const sittings = [...new Set(lastSeenFirst(epochs).map(({ sitting }) => sitting))];
  const needed = new Set(sittings.slice(0, SITTINGS));
  for (const { id, sitting } of epochs) if (unsettled.has(id)) needed.add(sitting);
  return epochs.filter(({ sitting }) => !needed.has(sitting));
}

/** Lets go of sittings long gone, but for those by whose clock times are still to be settled. */
export async function forgetClocks(): Promise<void> {
  const transaction = (await outbox()).transaction(["clock", "steamings", "entries"], "readwrite");
  const clocks = transaction.objectStore("clock");
  const pending = [
    ...(await transaction.objectStore("steamings").index("pending").getAll()),
    ...(await transaction.objectStore("entries").index("pending").getAll()),
  ];
  const unsettled = pending.filter(({ settled }) => settled !== true).map(({ raw }) => raw?.epoch ?? "");
  for (const { id } of unneeded(await clocks.getAll(), new Set(unsettled))) await clocks.delete(id);
  await transaction.done;
}
