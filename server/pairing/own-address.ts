import type { Config } from "../config.ts";
import { lanAddresses } from "../hosts.ts";

/** Where the server answers in the machine's networks: the one to be used first. Empty where it does not. */
export function ownAddresses(config: Config, port: number): string[] {
  if (!config.lan) return [];
  const scheme = config.tls === null ? "http" : "https";
  // a certificate is for a name: then the name that was allowed goes before the numbers
  const names = config.tls === null ? [] : config.hostsAllowed;
  const numbers = lanAddresses().filter((text) => !text.includes(":") && !text.startsWith("169.254."));
  return [...names, ...numbers].map((name) => `${scheme}://${name}:${port}`);
}

/** The page that pairs, with the code filled in; what stands behind the # is never sent over the network. */
export const pairingLink = (address: string, code: string): string => `${address}/#/pair?code=${code}`;
