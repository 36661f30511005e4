/** The Fitter's book of an engine: its list, one fitting's page, or the list of jobs before the next outing. */
export function fitterAddress(engineId: string, at: { fitting?: string; jobs?: true } = {}): string {
  const query = new URLSearchParams({
    ...(at.fitting === undefined ? {} : { fitting: at.fitting }),
    ...(at.jobs === undefined ? {} : { jobs: "1" }),
  });
  return `#/fitter/${encodeURIComponent(engineId)}${query.size === 0 ? "" : `?${query}`}`;
}

/** Where a steaming of an engine is begun. */
export const beginAddress = (locomotiveId: string): string =>
  `#/footplate?engine=${encodeURIComponent(locomotiveId)}`;

export function compareAddress(steamingIds: readonly string[], alignBy: string, figure?: string): string {
  const query = new URLSearchParams({ runs: steamingIds.map(encodeURIComponent).join(","), by: alignBy });
  if (figure !== undefined) query.set("figure", figure);
  return `#/compare?${query}`;
}
