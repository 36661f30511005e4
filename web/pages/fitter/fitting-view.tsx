import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useMemo } from "preact/hooks";
import type { Book, FittingBook } from "../../../src/care/book-schema.ts";
import { partsOf } from "../../../src/care/jobs.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { mayWrite } from "../../api/token.ts";
import { Chart } from "../../charts/chart.tsx";
import { ChartTableFold } from "../../parts/chart-table-fold.tsx";
import { Figure } from "../../parts/figure.tsx";
import { fitterAddress } from "../../room-addresses.ts";
import { fittingKindNames } from "../../words/fitting-names.ts";
import { asTaken } from "../../words/number.ts";
import { chartSentence, fittingChart, readingsTable } from "./fitting-chart.ts";
import { FittingForm } from "./fitting-form.tsx";
import { ServiceForm } from "./service-form.tsx";
import { ServiceList } from "./service-list.tsx";
import { StateMark } from "./state-mark.tsx";

interface Properties {
  engine: Locomotive;
  book: Book;
  care: FittingBook;
  kept: ComponentChildren;
  onDone: (words: string) => void;
}

const chartHeightPx = 300;

/** One fitting: its state and why, its readings, what was done to it and whether that helped. */
export function FittingView({ engine, book, care, kept, onDone }: Properties) {
  const writing = useSignal<"service" | "fitting" | null>(null);
  const spec = useMemo(() => fittingChart(care), [care]);
  const table = useMemo(() => readingsTable(care), [care]);
  const { fitting, state, why, measureNext } = care;
  const leave = () => {
    writing.value = null;
  };
  const finished = (words: string) => {
    leave();
    onDone(words);
  };
  return (
    <>
      <div>
        <p class="on-screen">
          <a href={fitterAddress(engine.id)}>All fittings of {engine.name}</a>
        </p>
        <div class="page-head">
          <h1>{fitting.name}</h1>
          {mayWrite() && (
            <div class="actions on-screen">
              <button type="button" class="primary" onClick={() => (writing.value = "service")}>
                Record a service
              </button>
              <button type="button" onClick={() => (writing.value = "fitting")}>
                Limit and particulars
              </button>
            </div>
          )}
        </div>
        {kept}
      </div>
      {writing.value === "service" && (
        <ServiceForm engine={engine} fitting={fitting} onDone={finished} onLeave={leave} />
      )}
      {writing.value === "fitting" && (
        <FittingForm engine={engine} fitting={fitting} onDone={finished} onLeave={leave} />
      )}
      <p class="lead">
        <StateMark state={state} /> {why}
      </p>
      {measureNext !== null && <p>{measureNext}</p>}
      {spec === null ? (
        <p class="soft">No drip has been caught at it: there is nothing to draw.</p>
      ) : (
        <figure class="chart">
          <figcaption>{chartSentence(care)}</figcaption>
          <Chart spec={spec} heightPx={chartHeightPx} sentence={chartSentence(care)} />
        </figure>
      )}
      {table.rows.length > 0 && <ChartTableFold table={table} name="readings" />}
      {fitting.kind === "gauge-glass" && care.drips.length > 0 && (
        <p class="soft">
          Catches at a gauge glass are carried to working pressure as steam. A bottom nut passes hot water,
          which grows less with pressure: caught well below working pressure, it comes out a little too high.
        </p>
      )}
      <FittingFacts care={care} />
      <ServiceList book={book} care={care} onDone={onDone} />
    </>
  );
}

function FittingFacts({ care }: { care: FittingBook }) {
  const { fitting, limit, since, slope } = care;
  const { access } = fitting;
  return (
    <dl class="facts">
      <div>
        <dt>Kind</dt>
        <dd>{fittingKindNames[fitting.kind]}</dd>
      </div>
      <div>
        <dt>Packing</dt>
        <dd>{fitting.packing ?? "not said"}</dd>
      </div>
      <div>
        <dt>Limit</dt>
        <dd>
          {limit === null
            ? "none"
            : `${limit.gPerMin} g/min${limit.own ? "" : ", taken by common practice: set your own"}`}
        </dd>
      </div>
      <div>
        <dt>
          {since.service === null ? "Since the log began, no service recorded" : "Since it was last done"}
        </dt>
        <dd>
          {since.hours.toFixed(1)} h in steam, {since.runningH.toFixed(1)} h running
          {since.pistonM === null ? "" : `, ${Math.round(since.pistonM)} m of piston travel`}
        </dd>
      </div>
      <div>
        <dt>Rises by</dt>
        <dd>
          <Figure figure={slope} />
        </dd>
      </div>
      <div>
        <dt>Steam until the limit</dt>
        <dd>
          <UntilLimit care={care} />
        </dd>
      </div>
      <div>
        <dt>To reach it, take off</dt>
        <dd>
          {access === undefined
            ? "not said"
            : access.length === 0
              ? "nothing"
              : partsOf([fitting]).join(", ")}
        </dd>
      </div>
    </dl>
  );
}

function UntilLimit({ care: { hoursToLimit, hoursToLimit80 } }: { care: FittingBook }) {
  if (hoursToLimit.value === null) return <span class="why">{hoursToLimit.why}</span>;
  if (hoursToLimit80 === null || hoursToLimit80[1] === 0) return <>none: it is reached</>;
  const [low, high] = hoursToLimit80;
  return (
    <span class="figure">
      <data value={String(hoursToLimit.value)}>{asTaken(Number(hoursToLimit.value.toPrecision(2)))}</data>
      <span class="unit"> h</span>
      <span class="interval">
        {asTaken(Number(low.toPrecision(2)))} to {asTaken(Number(high.toPrecision(2)))}, 80 times in 100
      </span>
    </span>
  );
}
