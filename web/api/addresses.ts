const steaming = (id: string) => `/api/steamings/${encodeURIComponent(id)}`;
const locomotive = (id: string) => `/api/locomotives/${encodeURIComponent(id)}`;

/** Where the server answers for what a phone beside the track tells it and asks of it. */
export const addresses = {
  clock: "/api/clock",
  footplate: "/api/footplate",
  locomotives: "/api/locomotives",
  locomotive,
  steamings: "/api/steamings",
  steaming,
  entries: (id: string) => `${steaming(id)}/entries`,
  entry: (id: string, entryId: string) => `${steaming(id)}/entries/${encodeURIComponent(entryId)}`,
} as const;
