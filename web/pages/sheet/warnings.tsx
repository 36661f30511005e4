import type { Report } from "../../../src/analysis/report-schema.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { Notice } from "../../parts/notice.tsx";
import { clockOf } from "../../words/time.ts";

interface Properties {
  report: Report;
  entries: readonly Entry[];
  onPoint: (entryId: string) => void;
}

const mostNamed = 6;

/** What in the log should be looked at again, each with the entries that it speaks of. */
export function Warnings({ report, entries, onPoint }: Properties) {
  if (report.warnings.length === 0) return null;
  return (
    <section class="warnings" aria-label="To look at again">
      {report.warnings.map((warning) => {
        const named = entries.filter((entry) => entry.id !== undefined && warning.entries.includes(entry.id));
        return (
          <Notice key={`${warning.code} ${warning.text}`} grade="caution" word="Look again:">
            {warning.text}
            {named.length > 0 && (
              <span class="on-screen">
                {" "}
                {named.slice(0, mostNamed).map((entry) => (
                  <button
                    key={entry.id}
                    type="button"
                    class="as-link"
                    onClick={() => entry.id !== undefined && onPoint(entry.id)}
                  >
                    entry at {clockOf(entry.atS)}
                  </button>
                ))}
                {named.length > mostNamed && ` and ${named.length - mostNamed} more`}
              </span>
            )}
          </Notice>
        );
      })}
    </section>
  );
}
