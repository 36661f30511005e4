/** Units that the names of a plan end in. */
const unit = /(Ml|WPerMK|Kg|M|C)$/;

/** Where in a plan something is wanted, in words: "tank 2, dead depth". */
export function placeWords(path: string): string {
  const tank = /^tanks\.water\[(\d+)\]/.exec(path);
  const key = path.split(".").at(-1) ?? path;
  const words = key
    .replace(/\[\d+\]$/, "")
    .replace(unit, "")
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return tank === null ? words : `tank ${Number(tank[1]) + 1}, ${words}`;
}
