import { Readable } from "node:stream";
import type { Store } from "../store/store.ts";
import { eventsOf } from "./events.ts";

const changesAtOnce = 200;
/** Heartbeats in a row that found no room: then whoever reads this has gone, or is too slow to follow. */
const beatsUnread = 4;

/**
 * What one follower reads: the change table from a number on, and then what is added to it. It is read from the
 * table only as fast as the follower takes it, so that a slow one costs no memory and misses nothing.
 */
export class LiveStream extends Readable {
  readonly #store: Store;
  #after: number;
  #wanted = false;
  #unread = 0;

  /** @param opening what is sent first, before the changes after `after` */
  constructor(store: Store, after: number, opening: string) {
    super({ encoding: "utf8" });
    this.#store = store;
    this.#after = after;
    this.push(opening);
  }

  override _read(): void {
    this.#wanted = true;
    this.#unread = 0;
    this.sendNew();
  }

  /** Sends what the table has gained, if the follower is ready for it. */
  sendNew(): void {
    try {
      this.#readOn();
    } catch (error) {
      // the follower comes again; the others are not to fall with it
      this.destroy(error instanceof Error ? error : new Error(String(error)));
    }
  }

  #readOn(): void {
    while (this.#wanted && !this.destroyed) {
      const changes = this.#store.changes.after(this.#after, changesAtOnce);
      const newest = changes.at(-1);
      if (newest === undefined) return;
      this.#after = newest.seq;
      const text = changes.map((change) => eventsOf(this.#store, change)).join("");
      if (text !== "") this.#send(text);
    }
  }

  /** A comment that keeps the connection open; a follower that has stopped reading is dropped. */
  beat(): void {
    if (this.#wanted) this.#send(": steady\n\n");
    else if (++this.#unread >= beatsUnread) this.destroy();
  }

  /** Ends in good order, or at once where the follower does not read. */
  end(): void {
    if (this.#wanted) this.push(null);
    else this.destroy();
  }

  #send(text: string): void {
    this.#wanted = false;
    this.push(text);
  }
}
