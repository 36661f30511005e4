import { ApiError } from "../errors.ts";
import type { Store } from "../store/store.ts";
import { eventText } from "./events.ts";
import { LiveStream } from "./live-stream.ts";

export const beatMs = 15_000;
const retryMs = 2000;
export const mostStreams = 100;
export const mostOfOneAddress = 20;

/** Who follows. */
export interface Follower {
  address: string;
  /** the paired device; null on this machine itself */
  deviceId: string | null;
}

/** The open streams of all followers. */
export function liveOf(store: Store) {
  const followers = new Map<LiveStream, Follower>();
  const stopListening = store.changes.whenChanged(() => {
    for (const stream of followers.keys()) stream.sendNew();
  });
  const beats = setInterval(() => {
    for (const stream of followers.keys()) stream.beat();
  }, beatMs).unref();

  return {
    /**
     * A stream of the changes after the one that a follower saw last; from now on where it saw none.
     * @throws ApiError where too many are open
     */
    follow(lastSeen: string | undefined, follower: Follower): LiveStream {
      const ofAddress = [...followers.values()].filter(({ address }) => address === follower.address);
      if (followers.size >= mostStreams || ofAddress.length >= mostOfOneAddress) {
        throw new ApiError("live-full", "too many pages follow already: close some and try again");
      }
      const { after, opening } = beginning(lastSeen, store.changes.last());
      const stream = new LiveStream(store, after, opening);
      followers.set(stream, follower);
      stream.once("close", () => followers.delete(stream));
      return stream;
    },
    /** Cuts off the streams of a device at once. */
    cutOff(deviceId: string): void {
      for (const [stream, follower] of followers) if (follower.deviceId === deviceId) stream.destroy();
    },
    /** Ends all streams, so that the server can close. */
    stop(): void {
      clearInterval(beats);
      stopListening();
      for (const stream of followers.keys()) stream.end();
    },
    count: (): number => followers.size,
  };
}
export type Live = ReturnType<typeof liveOf>;

/**
 * Where a stream begins. The number of the newest change goes ahead, so that a follower that loses the connection
 * before anything happened still has a place to go on from. A number that this database has not given out yet is
 * from another one (a backup brought back, a new folder): what the follower knows is no ground to go on from.
 */
function beginning(lastSeen: string | undefined, newest: number): { after: number; opening: string } {
  const retry = `retry: ${retryMs}\n`;
  if (lastSeen === undefined) return { after: newest, opening: `${retry}id: ${newest}\n\n` };
  const seen = /^\d{1,15}$/.test(lastSeen) ? Number(lastSeen) : Number.POSITIVE_INFINITY;
  if (seen <= newest) return { after: seen, opening: `${retry}id: ${seen}\n\n` };
  return { after: newest, opening: `${retry}${eventText(newest, "restart", {})}` };
}
