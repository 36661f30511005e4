import type { Book, FittingBook } from "../../../src/care/book-schema.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { mayWrite } from "../../api/token.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Figure } from "../../parts/figure.tsx";
import { Refused } from "../../parts/refused.tsx";
import { serviceNames } from "../../words/fitting-names.ts";
import { dateInWords } from "../../words/time.ts";

type EngineEffect = FittingBook["services"][number]["engine"][number];

interface Properties {
  book: Book;
  care: FittingBook;
  onDone: (words: string) => void;
}

/** What was done to a fitting, the latest first, and whether it helped. */
export function ServiceList({ book, care, onDone }: Properties) {
  const { sending, refusal, submit } = useSubmit();
  const latestFirst = [...care.services].reverse();
  const remove = async (id: string) => {
    if (await submit("DELETE", furtherAddresses.service(id), undefined)) onDone("The service is taken out.");
  };
  return (
    <section class="ruled" aria-labelledby="services">
      <h2 id="services">Services</h2>
      {latestFirst.length === 0 && <p class="soft">Nothing is recorded as done to it yet.</p>}
      <ol class="services">
        {latestFirst.map(({ service, words, difference, engine }) => (
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
                  Difference: <Figure figure={difference} />
                </p>
              )}
              {engine
                .filter((one) => one.toldApart !== null)
                .map((one) => (
                  <p key={one.name}>
                    {one.name} since, {directionOf(one, book)} ({one.before} like outings before, {one.after}{" "}
                    since): <Figure figure={one.difference} />
                  </p>
                ))}
            </div>
            {mayWrite() && (
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
            )}
          </li>
        ))}
      </ol>
      {refusal.value !== null && <Refused word="Not taken out" refusal={refusal.value} />}
    </section>
  );
}

/** "better, told apart from chance", by which way this figure of the engine goes when it gets worse. */
function directionOf({ name, difference, toldApart }: EngineEffect, { indicators }: Book): string {
  const worse = indicators.find((indicator) => indicator.name === name)?.worse;
  const told = toldApart === true ? "told apart from chance" : "not told apart from chance";
  if (worse === undefined || difference.value === null || difference.value === 0) return told;
  const way = difference.value > 0 === (worse === "up") ? "worse" : "better";
  return toldApart === true ? `${way}, ${told}` : `${way} on the face of it, ${told}`;
}
