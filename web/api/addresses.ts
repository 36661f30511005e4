const steaming = (id: string) => `/api/steamings/${encodeURIComponent(id)}`;

/** Where the server answers for what. */
export const addresses = {
  clock: "/api/clock",
  pairing: "/api/pairing",
  pairingCodes: "/api/pairing/codes",
  devices: "/api/devices",
  device: (id: string) => `/api/devices/${encodeURIComponent(id)}`,
  backups: "/api/backups",
  shed: "/api/shed",
  demonstration: "/api/demonstration",
  logbook: "/api/logbook",
  logbookPreview: "/api/logbook?preview=true",
  locomotives: "/api/locomotives",
  locomotive: (id: string) => `/api/locomotives/${encodeURIComponent(id)}`,
  book: (id: string) => `/api/locomotives/${encodeURIComponent(id)}/book`,
  services: "/api/services",
  service: (id: string) => `/api/services/${encodeURIComponent(id)}`,
  runFigures: (id: string) => `/api/locomotives/${encodeURIComponent(id)}/run-figures`,
  plans: (id: string) => `/api/locomotives/${encodeURIComponent(id)}/plans`,
  plan: (id: string, name: string) =>
    `/api/locomotives/${encodeURIComponent(id)}/plans/${encodeURIComponent(name)}`,
  steamings: "/api/steamings",
  steaming,
  sheet: (id: string) => `${steaming(id)}/sheet`,
  entries: (id: string) => `${steaming(id)}/entries`,
  entry: (id: string, entryId: string) => `${steaming(id)}/entries/${encodeURIComponent(entryId)}`,
  compare: "/api/compare",
} as const;
