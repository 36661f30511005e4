import { renderUnicodeCompact } from "uqr";
import type { Config } from "../config.ts";
import type { PairingCodes } from "./codes.ts";
import { ownAddresses, pairingLink } from "./own-address.ts";

export const plainHttpWarning =
  "This is plain http: anyone in this network can read what is sent, and could take this device's place. " +
  "Use it in a network you trust, or start the server with a certificate of your own (--tls-cert, --tls-key).";

/** What the terminal says of the network: where to go, and how a phone is paired. */
export function announcement(config: Config, port: number, codes: PairingCodes): string[] {
  const addresses = ownAddresses(config, port);
  const [first] = addresses;
  if (first === undefined) return ["this machine has no address in a network: no phone can reach it"];
  const { code, expiresAtMs } = codes.make("record");
  const until = new Date(expiresAtMs).toTimeString().slice(0, 5);
  return [
    ...addresses.map((address) => `and in this network at ${address}`),
    `To pair a phone, open that address on it and give the code ${code} (good once, until ${until}), or point its camera here:`,
    renderUnicodeCompact(pairingLink(first, code), { border: 2 }),
    ...(config.tls === null ? [plainHttpWarning] : []),
  ];
}
