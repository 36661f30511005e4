import type { Sheet } from "../../api/shapes.ts";
import { TitleBlock } from "../../parts/title-block.tsx";
import { sheetAddress } from "../../route.ts";
import { reading } from "../../words/entry-words.ts";
import { fuelNames } from "../../words/names.ts";
import { asTaken } from "../../words/number.ts";
import { clockTime, dateInWords } from "../../words/time.ts";
import type { AmongSheets } from "./among-sheets.ts";

export function SheetTitleBlock({ sheet, among }: { sheet: Sheet; among: AmongSheets }) {
  const { steaming, locomotive, entries } = sheet;
  const { inOrder, place } = among;
  const before = inOrder[place - 1];
  const after = inOrder[place + 1];
  return (
    <>
      {place >= 0 && (
        <nav class="sheet-turn on-screen" aria-label="Sheets of this engine">
          {before !== undefined && (
            <a href={sheetAddress(before.id)}>Sheet before: {dateInWords(before.startedAt)}</a>
          )}
          {after !== undefined && (
            <a href={sheetAddress(after.id)}>Sheet after: {dateInWords(after.startedAt)}</a>
          )}
        </nav>
      )}
      <TitleBlock
        cells={[
          [
            "Engine",
            <>
              <strong>{locomotive.name}</strong>, {fuelNames[locomotive.fuel.kind]},{" "}
              {reading(locomotive.workingPressureBarG, "bar")}
            </>,
          ],
          [
            "Steaming",
            <>
              <strong>{dateInWords(steaming.startedAt)}</strong>, {clockTime(steaming.startedAt)}
            </>,
          ],
          ["Conditions", conditionsInWords(sheet)],
          ["Entries", entries.length],
          [
            "Sheet",
            place < 0 ? (
              ""
            ) : (
              <>
                <strong>{place + 1}</strong> of {inOrder.length}
              </>
            ),
          ],
        ]}
      />
    </>
  );
}

function conditionsInWords({ steaming }: Sheet): string {
  const { conditions, track, train } = steaming;
  const parts = [
    conditions === undefined ? null : `air ${reading(conditions.ambientC, "°C")}`,
    conditions === undefined ? null : `feed ${reading(conditions.feedC, "°C")}`,
    track === undefined ? null : `lap ${asTaken(track.lapM)} m`,
    train === undefined ? null : `train ${asTaken(train.massKg)} kg`,
    track?.place ?? null,
  ].filter((part) => part !== null);
  return parts.length > 0 ? parts.join(", ") : "not recorded";
}
