import { addresses } from "./addresses.ts";

/** Where the server answers for what the other rooms ask. */
export const furtherAddresses = {
  shed: "/api/shed",
  pairing: "/api/pairing",
  pairingCodes: "/api/pairing/codes",
  devices: "/api/devices",
  device: (id: string) => `/api/devices/${encodeURIComponent(id)}`,
  backups: "/api/backups",
  demonstration: "/api/demonstration",
  logbook: "/api/logbook",
  logbookPreview: "/api/logbook?preview=true",
  book: (id: string) => `${addresses.locomotive(id)}/book`,
  services: "/api/services",
  service: (id: string) => `/api/services/${encodeURIComponent(id)}`,
  runFigures: (id: string) => `${addresses.locomotive(id)}/run-figures`,
  plans: (id: string) => `${addresses.locomotive(id)}/plans`,
  plan: (id: string, name: string) => `${addresses.locomotive(id)}/plans/${encodeURIComponent(name)}`,
  sheet: (id: string) => `${addresses.steaming(id)}/sheet`,
  compare: "/api/compare",
} as const;
