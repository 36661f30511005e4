/** A browser's date-and-time field ("2026-03-14T10:14") as a moment with this machine's offset at that time. */
export function momentFromField(field: string): string | null {
  const at = new Date(field);
  if (Number.isNaN(at.getTime())) return null;
  const offset = -at.getTimezoneOffset();
  const hours = String(Math.floor(Math.abs(offset) / 60)).padStart(2, "0");
  const minutes = String(Math.abs(offset) % 60).padStart(2, "0");
  return `${field.length === 16 ? `${field}:00` : field}${offset < 0 ? "-" : "+"}${hours}:${minutes}`;
}
