const steaming = (id: string) => `/api/steamings/${encodeURIComponent(id)}`;

/** Where the server answers for what. */
export const addresses = {
  shed: "/api/shed",
  demonstration: "/api/demonstration",
  logbook: "/api/logbook",
  logbookPreview: "/api/logbook?preview=true",
  locomotives: "/api/locomotives",
  locomotive: (id: string) => `/api/locomotives/${encodeURIComponent(id)}`,
  steamings: "/api/steamings",
  steaming,
  sheet: (id: string) => `${steaming(id)}/sheet`,
  entry: (id: string, entryId: string) => `${steaming(id)}/entries/${encodeURIComponent(entryId)}`,
  compare: "/api/compare",
} as const;
