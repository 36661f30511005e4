import type { Sheet } from "../../api/shapes.ts";
import { entryInWords } from "../../words/entry-words.ts";
import { clockOf } from "../../words/time.ts";

/** What was deleted, as it was until then: it is not reckoned with, and not lost. */
export function TakenOutEntries({ sheet }: { sheet: Sheet }) {
  const formers = sheet.history.flatMap(({ what, former }) =>
    what === "deleted" && former !== null ? [former] : [],
  );
  if (formers.length === 0) return null;
  return (
    <details class="fold">
      <summary>Deleted: {formers.length}</summary>
      <ul>
        {formers.map((former) => (
          <li key={former.id}>
            {clockOf(former.atS)} <s>{entryInWords(former, sheet.locomotive)}</s>
          </li>
        ))}
      </ul>
    </details>
  );
}
