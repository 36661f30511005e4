import { inOneGo } from "./database.ts";
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
export const forgetClocks = (): Promise<void> =>
  inOneGo(["clock", "steamings", "entries"], async (clocks, steamings, entries) => {
    const pending = [
      ...(await steamings.index("pending").getAll()),
      ...(await entries.index("pending").getAll()),
    ];
    const unsettled = pending.filter(({ settled }) => settled !== true).map(({ raw }) => raw?.epoch ?? "");
    for (const { id } of unneeded(await clocks.getAll(), new Set(unsettled))) await clocks.delete(id);
  });
