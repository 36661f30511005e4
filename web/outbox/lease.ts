import { newId } from "../api/new-id.ts";
import { inOneGo } from "./database.ts";

/** One tab of a browser speaks with the server for all; browsers give no locks to a plain-http page. */
const LEASE_MS = 4000;

interface Lease {
  holder: string;
  untilMs: number;
}

const tab = newId();

/** Takes or renews the lease; false where another tab holds it. */
export const takeLease = (name: string): Promise<boolean> =>
  inOneGo(["kept"], async (store) => {
    const held = (await store.get(`lease ${name}`)) as Lease | undefined;
    const leftMs = held === undefined ? 0 : held.untilMs - Date.now();
    // a lease that lies further ahead than any is given was written before the clock was set back
    const others = held !== undefined && held.holder !== tab && leftMs > 0 && leftMs <= LEASE_MS;
    if (!others) {
      const lease: Lease = { holder: tab, untilMs: Date.now() + LEASE_MS };
      await store.put(lease, `lease ${name}`);
    }
    return !others;
  });

/** Gives it back early, so that another tab need not wait for it to run out. */
export const giveLeaseBack = (name: string): Promise<void> =>
  inOneGo(["kept"], async (store) => {
    const held = (await store.get(`lease ${name}`)) as Lease | undefined;
    if (held?.holder === tab) await store.delete(`lease ${name}`);
  });
