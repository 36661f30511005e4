import type { FittingBook } from "../../../src/care/book-schema.ts";
import { addresses } from "../../api/addresses.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Figure } from "../../parts/figure.tsx";
import { Refused } from "../../parts/refused.tsx";
import { serviceNames } from "../../words/names.ts";
import { dateInWords } from "../../words/time.ts";

/** What was done to a fitting, the latest first, and whether it helped. */
export function ServiceList({ care, onDone }: { care: FittingBook; onDone: (words: string) => void }) {
  const { sending, refusal, submit } = useSubmit();
  const latestFirst = [...care.services].reverse();
  const remove = async (id: string) => {
    if (await submit("DELETE", addresses.service(id), undefined)) onDone("The service is taken out.");
  };
  return (
    <section class="ruled" aria-labelledby="services">
      <h2 id="services">Services</h2>
      {latestFirst.length === 0 && <p class="soft">Nothing is recorded as done to it yet.</p>}
      <ol class="services">
        {latestFirst.map(({ service, words, difference, before, after, engine }) => (
          <li key={service.id}>
            <div>
              <strong>
                {serviceNames[service.what]} {dateInWords(service.at)}
              </strong>
              {service.note !== undefined && <p class="soft">{service.note}</p>}
            </div>
            <div>
              <p>{words}</p>
              {difference.value !== null && (
                <p>
                  Difference: <Figure figure={difference} /> ({before} before, {after} since)
                </p>
              )}
              {engine
                .filter((one) => one.toldApart !== null)
                .map((one) => (
                  <p key={one.name}>
                    {one.name}: <Figure figure={one.difference} /> since,{" "}
                    {one.toldApart === true ? "told apart" : "not told apart"} ({one.before} like outings
                    before, {one.after} since)
                  </p>
                ))}
            </div>
            <button
              type="button"
              class="on-screen"
              disabled={sending.value}
              onClick={() => void remove(service.id)}
            >
              Take out
              <span class="unseen">
                {" "}
                {serviceNames[service.what]} {dateInWords(service.at)}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {refusal.value !== null && <Refused word="Not taken out" refusal={refusal.value} />}
    </section>
  );
}
