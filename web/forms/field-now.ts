/** Now, as a browser's date-and-time field wants it. */
export function fieldNow(now = new Date()): string {
  const local = new Date(now.getTime() - now.getTimezoneOffset() * 60_000);
  return local.toISOString().slice(0, 16);
}
