const prefix = "lapwater.";

/** A list of words that this browser keeps; empty where nothing is kept or storage is denied. */
export function kept(name: string): string[] {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(prefix + name) ?? "[]");
    return Array.isArray(stored) ? stored.filter((item) => typeof item === "string") : [];
  } catch {
    return [];
  }
}

/** Keeps it; where storage is denied the choice lasts as long as the page. */
export function keep(name: string, values: readonly string[]): void {
  try {
    localStorage.setItem(prefix + name, JSON.stringify(values));
  } catch {
    // private windows may deny storage; the page goes on without
  }
}
