import type { Book } from "../../../src/care/book-schema.ts";
import { beforeStripping, savedInWords, takeOffInWords } from "../../../src/care/job-words.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { fitterAddress } from "../../room-addresses.ts";

/** A sheet to print: what to do before the next steaming, and what to read at it. */
export function JobList({ engine, book }: { engine: Locomotive; book: Book }) {
  const nameOf = (id: string) => engine.fittings.find((fitting) => fitting.id === id)?.name ?? id;
  const whyOf = (id: string) => book.fittings.find(({ fitting }) => fitting.id === id)?.why ?? "";
  const toRead = book.fittings.filter(({ measureNext }) => measureNext !== null);
  return (
    <>
      <div class="page-head">
        <h1>Before the next steaming of {engine.name}</h1>
        <div class="actions on-screen">
          <button type="button" class="primary" onClick={() => print()}>
            Print
          </button>
          <a class="button" href={fitterAddress(engine.id)}>
            All fittings
          </a>
        </div>
      </div>
      {book.jobs.length === 0 ? (
        <p class="lead">Nothing asks for attention by what has been logged.</p>
      ) : (
        <p class="before-stripping">
          <strong>First:</strong> {beforeStripping}
        </p>
      )}
      {book.jobs.map((job, i) => (
        <section key={job.do.join(" ")} class="ruled job" aria-label={`Job ${i + 1}`}>
          <h2>
            Job {i + 1}: {takeOffInWords(job)}
          </h2>
          <ul class="tick-list">
            {job.do.map((id) => (
              <li key={id}>
                <strong>{nameOf(id)}.</strong> {whyOf(id)}
              </li>
            ))}
            {job.alsoWorth.map((id) => (
              <li key={id}>
                <strong>{nameOf(id)}</strong>, worth doing while it is apart. {whyOf(id)}
              </li>
            ))}
          </ul>
          {job.outingsSaved > 0 && <p>{savedInWords(job)}</p>}
        </section>
      ))}
      {toRead.length > 0 && (
        <section class="ruled" aria-labelledby="to-read">
          <h2 id="to-read">To read at the next steaming</h2>
          <ul class="tick-list">
            {toRead.map(({ fitting, measureNext }) => (
              <li key={fitting.id}>
                <strong>{fitting.name}.</strong> {measureNext}
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
