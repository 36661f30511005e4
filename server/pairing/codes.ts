import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import type { May } from "../store/devices.ts";

/** Without I, L, O and U, which are read as others; 8 of 32 signs are 40 bits. */
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const signs = 8;
export const validMs = 10 * 60_000;
/** Wrong codes, of whomever, after which no code is taken until a new one is made. */
export const wrongAtMost = 10;
const mostAtOnce = 10;

interface Given {
  hash: Buffer;
  may: May;
  expiresAtMs: number;
}

/**
 * One-time codes by which a phone is paired. They live in memory only: a restart of the server makes them void.
 * @param nowMs the clock, ms since 1970
 */
export function pairingCodes(nowMs: () => number = Date.now) {
  let given: Given[] = [];
  let wrong = 0;
  return {
    /** A new code, in two groups of four for whoever types it; wrong ones are counted anew from here. */
    make(may: May): { code: string; expiresAtMs: number } {
      const code = [...randomBytes(signs)].map((byte) => alphabet[byte % alphabet.length]).join("");
      const expiresAtMs = nowMs() + validMs;
      given = [...given, { hash: hashOf(code), may, expiresAtMs }].slice(-mostAtOnce);
      wrong = 0;
      return { code: `${code.slice(0, 4)}-${code.slice(4)}`, expiresAtMs };
    },
    /** What a code allows, which is then used up; null where it is wrong, used or too old. */
    take(code: string): May | null {
      const hash = hashOf(normal(code));
      const now = nowMs();
      given = given.filter(({ expiresAtMs }) => expiresAtMs > now);
      // all are compared, each in constant time: how long it takes says nothing
      const fitting = given.filter((each) => timingSafeEqual(each.hash, hash));
      const [found] = fitting;
      if (found === undefined) {
        wrong++;
        if (wrong >= wrongAtMost) given = [];
        return null;
      }
      given = given.filter((each) => each !== found);
      return found.may;
    },
  };
}
export type PairingCodes = ReturnType<typeof pairingCodes>;

const hashOf = (code: string): Buffer => createHash("sha256").update(code).digest();

/** As it is meant, however it was typed. */
const normal = (code: string): string =>
  code
    .toUpperCase()
    .replaceAll(/[^0-9A-Z]/g, "")
    .replaceAll("O", "0")
    .replaceAll(/[IL]/g, "1");
