import { useEffect } from "preact/hooks";
import { asRefusal, type Refusal } from "../../api/client.ts";
import { viewOnly } from "../../api/token.ts";
import type { SteamingRecord } from "../../outbox/database.ts";
import { type EngineHere, enginesHere, refreshEngines } from "../../outbox/engines-here.ts";
import { refusedHere, waiting } from "../../outbox/outbox-state.ts";
import { steamingsHere } from "../../outbox/steamings.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { Notice } from "../../parts/notice.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { footplateAddress, goTo, route } from "../../route.ts";
import { useSignal } from "../../signals/use-signal.ts";
import { engineLine } from "../../words/engine-line.ts";
import { BeginForm } from "./begin-form.tsx";
import { begunWords, JustOver, OverHere } from "./over-here.tsx";
import { PairingLine } from "./pairing-line.tsx";

/** Which engine is steamed today, or the steaming that goes on. */
export function BeginPage() {
  const engines = useSignal<EngineHere[] | null>(null);
  const all = useSignal<SteamingRecord[]>([]);
  const refusal = useSignal<Refusal | null>(null);
  const chosen = useSignal<string | null>(route.value.query.get("engine"));
  useEffect(() => {
    const fetchAll = async () => {
      const [here, going] = await Promise.all([enginesHere(), steamingsHere()]);
      if (here.length > 0) engines.value = here;
      all.value = going;
      engines.value = await refreshEngines();
    };
    fetchAll().catch((error) => {
      refusal.value = asRefusal(error);
    });
  }, [engines, all, refusal]);
  const running = all.value.filter(({ finished }) => finished !== true);
  const justOver = all.value.find(
    ({ id, finished }) => finished === true && id === route.value.query.get("over"),
  );
  const known = engines.value ?? [];
  const of = known.length === 1 ? known[0] : known.find(({ engine }) => engine.id === chosen.value);
  return (
    <>
      <h1>Footplate</h1>
      <PairingLine refusal={refusal.value} />
      {justOver !== undefined && <JustOver record={justOver} />}
      {running.length > 0 && (
        <section class="ruled">
          <h2>Going on</h2>
          <div class="panel-keys">
            {running.map(({ id, head, engine, refused }) => (
              <a key={id} class="button key" href={footplateAddress(id)}>
                {engine.name}
                <span class="sub">
                  {begunWords(head)}
                  {refused !== undefined && ", refused by the server"}
                </span>
              </a>
            ))}
          </div>
        </section>
      )}
      {viewOnly.value && <p>This phone may only view: another one records.</p>}
      <section class="ruled" hidden={viewOnly.value}>
        <h2>Begin a steaming</h2>
        {engines.value === null && refusal.value === null && <p class="loading">Fetching the engines</p>}
        {known.length === 0 && refusal.value !== null && (
          <Notice grade="caution" word="No engine is known here yet.">
            {refusal.value.message} Open this page once where the server answers; after that it can do
            without.
          </Notice>
        )}
        {known.length === 0 && engines.value !== null && (
          <p>
            No engine stands in the <a href="#/shed">Shed</a> yet.
          </p>
        )}
        {known.length > 1 && (
          <div class="panel-keys">
            {known.map(({ engine, demonstration }) => (
              <button
                key={engine.id}
                type="button"
                class="key"
                aria-pressed={of?.engine.id === engine.id}
                onClick={() => {
                  chosen.value = engine.id;
                }}
              >
                {engine.name}
                <span class="sub">{demonstration ? "demonstration, invented" : engineLine(engine)}</span>
              </button>
            ))}
          </div>
        )}
        {of !== undefined && (
          <BeginForm key={of.engine.id} of={of} onBegun={(id) => goTo(footplateAddress(id))} />
        )}
      </section>
      <OverHere records={all.value.filter(({ finished }) => finished === true)} />
      <Cautions />
      <TitleBlock
        cells={[
          ["Sheet", <strong key="name">Footplate</strong>],
          ["Going on", running.length],
          [
            "Not sent",
            `${waiting.value}${refusedHere.value > 0 ? `, and ${refusedHere.value} refused, kept here` : ""}`,
          ],
        ]}
      />
    </>
  );
}
