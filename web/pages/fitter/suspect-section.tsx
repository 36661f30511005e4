import type { Book } from "../../../src/care/book-schema.ts";

/** Where to look first, with what speaks for and against each, and the check that would tell. */
export function SuspectSection({ suspects }: { suspects: Book["suspects"] }) {
  if (suspects.length === 0) return null;
  return (
    <section class="ruled" aria-labelledby="suspects">
      <h2 id="suspects">Where to look first</h2>
      <p class="soft">
        From what has changed of late against her own steamings before. The likelihoods are common practice
        put in numbers, not measured.
      </p>
      <ol class="suspects">
        {suspects.map(({ name, fittings, weight, speaksFor, speaksAgainst, check }) => (
          <li key={name}>
            <h3>
              {name}
              {fittings.length > 0 && `: ${fittings.join(", ")}`}{" "}
              <span class="unit">{Math.round(100 * weight)} in 100</span>
            </h3>
            <dl>
              <div>
                <dt>For</dt>
                <dd>{speaksFor.join("; ")}</dd>
              </div>
              {speaksAgainst.length > 0 && (
                <div>
                  <dt>Against</dt>
                  <dd>{speaksAgainst.join("; ")}</dd>
                </div>
              )}
              <div>
                <dt>Check</dt>
                <dd>{check}</dd>
              </div>
            </dl>
          </li>
        ))}
      </ol>
    </section>
  );
}
