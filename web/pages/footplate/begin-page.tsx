import { useSignal } from "@preact/signals";
import { useCallback, useEffect } from "preact/hooks";
import { addresses } from "../../api/addresses.ts";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import type { FootplateAnswer } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { useLive } from "../../live/use-live.ts";
import { serverNowMs } from "../../outbox/clock.ts";
import type { SteamingRecord } from "../../outbox/database.ts";
import { type EngineHere, enginesHere, keepEngines } from "../../outbox/engines-here.ts";
import { inContact, refusedHere, waiting } from "../../outbox/outbox-state.ts";
import { goesOn, steamingsHere } from "../../outbox/steamings.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { Notice } from "../../parts/notice.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { footplateAddress, goTo, route } from "../../route.ts";
import { engineLine } from "../../words/engine-line.ts";
import { BeginForm } from "./begin-form.tsx";
import { type GoingOn, GoingOnList } from "./going-on.tsx";
import { JustOver, OverHere } from "./over-here.tsx";
import { PairingLine } from "./pairing-line.tsx";

/** At the tap that begins, a server that takes longer is not waited for (our choice). */
const PATIENCE_MS = 1500;

/** Which engine is steamed today, or the steaming that goes on. */
export function BeginPage() {
  const engines = useSignal<EngineHere[] | null>(null);
  const all = useSignal<SteamingRecord[]>([]);
  const there = useSignal<GoingOn[]>([]);
  const refusal = useSignal<Refusal | null>(null);
  const chosen = useSignal<string | null>(route.value.query.get("engine"));
  const over = route.value.query.get("over");
  const look = useCallback(
    async (patienceMs?: number) => {
      const answer = await call<FootplateAnswer>("GET", addresses.footplate, undefined, patienceMs);
      there.value = answer.engines.flatMap(({ locomotive: engine, inSteam }) =>
        inSteam.map((head) => ({ head, engine, elsewhere: true })),
      );
      engines.value = await keepEngines(answer);
    },
    [there, engines],
  );
  useEffect(() => {
    const fetchAll = async () => {
      const [here, kept] = await Promise.all([enginesHere(), steamingsHere()]);
      if (here.length > 0) engines.value = here;
      all.value = kept;
      await look();
    };
    fetchAll().catch((error) => {
      refusal.value = asRefusal(error);
    });
  }, [engines, all, look, refusal, over]);
  useLive(({ of }) => {
    if (of !== "entry") void look().catch(() => undefined);
  });
  const goingOn = (isOn: (record: SteamingRecord) => boolean): GoingOn[] => [
    ...all.value.filter(isOn),
    // one that is kept here goes by what is known here
    ...there.value.filter(({ head }) => all.value.every(({ id }) => id !== head.id)),
  ];
  const isOn = (record: SteamingRecord) => goesOn(record, serverNowMs());
  const running = goingOn(isOn);
  const steamsAlready = async (engineId: string): Promise<GoingOn | undefined> => {
    if (inContact.value) await look(PATIENCE_MS).catch(() => undefined);
    all.value = await steamingsHere();
    return goingOn(isOn).find(({ engine, head }) => engine.id === engineId && head.purpose !== "cold-hold");
  };
  const justOver = all.value.find(({ id, finished, dropped }) => (finished || dropped) && id === over);
  const known = engines.value ?? [];
  const of = known.length === 1 ? known[0] : known.find(({ engine }) => engine.id === chosen.value);
  return (
    <>
      <h1>Footplate</h1>
      <PairingLine refusal={refusal.value} />
      {justOver !== undefined && <JustOver record={justOver} />}
      {running.length > 0 && <GoingOnList steamings={running} />}
      {!mayWrite() && <p>This phone may only view: another one records.</p>}
      <section class="ruled" hidden={!mayWrite()}>
        <h2>Begin a steaming</h2>
        {engines.value === null && refusal.value === null && <p class="loading">Fetching the engines</p>}
        {known.length === 0 && refusal.value !== null && (
          <Notice grade="caution" word="No engine is known here yet.">
            {refusal.value.message} Open this page once where the server answers.
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
          <BeginForm
            key={of.engine.id}
            of={of}
            steamsAlready={steamsAlready}
            onBegun={(id) => goTo(footplateAddress(id))}
          />
        )}
      </section>
      <OverHere records={all.value.filter((record) => record.dropped !== true && !isOn(record))} />
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
