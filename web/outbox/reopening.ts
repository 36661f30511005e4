/** Gives the opened thing; `forget` has the next call open it anew, whatever the last one came to. */
export type Reopening<Thing> = (() => Promise<Thing>) & { forget: () => void };

/**
 * Opens something once for all who ask, and anew after it could not be opened or was lost.
 * @param open called with what tells that the opened thing is gone
 */
export function reopening<Thing>(open: (lost: () => void) => Promise<Thing>): Reopening<Thing> {
  let opened: Promise<Thing> | null = null;
  const give = () => {
    if (opened !== null) return opened;
    const lost = () => {
      if (opened === opening) opened = null;
    };
    const opening: Promise<Thing> = open(lost);
    opened = opening;
    opening.catch(lost);
    return opening;
  };
  return Object.assign(give, {
    forget: () => {
      opened = null;
    },
  });
}

/** Does it, and once more where it failed: a store that was closing is open again by then. @throws what fails twice */
export async function onceMore<Result>(what: (again: boolean) => Promise<Result>): Promise<Result> {
  try {
    return await what(false);
  } catch {
    return what(true);
  }
}
