import type { Sheet } from "../api/shapes.ts";
import { TitleBlock } from "../parts/title-block.tsx";
import { reading } from "../words/entry-words.ts";
import { asTaken } from "../words/number.ts";
import { clockTime, dateInWords } from "../words/time.ts";

/** Which of the engine's sheets it is, from the first. */
export interface SheetPlace {
  nth: number;
  of: number;
}

/** At the foot of the page, as on a drawing: what it is of, under what conditions, its place among the engine's sheets, and room for the keeper's name. */
export function PaperTitleBlock({ sheet, place }: { sheet: Sheet; place: SheetPlace | null }) {
  const { steaming, locomotive, entries } = sheet;
  const { conditions, track, train } = steaming;
  const parts = [
    conditions === undefined
      ? null
      : `air ${reading(conditions.ambientC, "°C")}, feed ${reading(conditions.feedC, "°C")}`,
    conditions?.atmosphereHPa === undefined ? null : `${asTaken(conditions.atmosphereHPa)} hPa`,
    track === undefined
      ? null
      : `lap ${reading(track.lapM, "m")}${track.place === undefined ? "" : `, ${track.place}`}`,
    train === undefined ? null : `train ${asTaken(train.massKg)} kg`,
  ].filter((part) => part !== null);
  return (
    <TitleBlock
      cells={[
        ["Engine", <strong key="engine">{locomotive.name}</strong>],
        [
          "Steaming",
          <span key="steaming">
            {dateInWords(steaming.startedAt)}, {clockTime(steaming.startedAt)}
          </span>,
        ],
        ["Conditions", parts.length > 0 ? parts.join(", ") : "not recorded"],
        ["Entries", entries.length],
        ["Kept by", ""],
        ["Sheet", place === null ? "" : `${place.nth} of ${place.of}`],
      ]}
    />
  );
}
