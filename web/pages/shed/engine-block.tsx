import type { Shed, SteamingSummary } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { Figure } from "../../parts/figure.tsx";
import { beginAddress, compareAddress } from "../../room-addresses.ts";
import { sheetAddress } from "../../route.ts";
import { counted } from "../../words/counted.ts";
import { engineLine } from "../../words/engine-line.ts";
import { purposeNames } from "../../words/names.ts";
import { clockTime, dateInWords } from "../../words/time.ts";
import { CareLine } from "../fitter/care-line.tsx";

interface Properties {
  engine: Shed["engines"][number];
  /** a phone that may only view finds no keys that change anything */
  onEdit: () => void;
  onSteam: () => void;
}

/** An engine and her steamings, the latest first. */
export function EngineBlock({ engine, onEdit, onSteam }: Properties) {
  const { locomotive, demonstration, steamings } = engine;
  const latestFirst = [...steamings].sort((a, b) => Date.parse(b.startedAt) - Date.parse(a.startedAt));
  return (
    <section class="engine ruled" aria-labelledby={`engine-${locomotive.id}`}>
      <div class="engine-head">
        <div>
          <h2 id={`engine-${locomotive.id}`}>
            {locomotive.name}
            {demonstration && <span class="tag">demonstration, invented</span>}
          </h2>
          <p class="soft">{engineLine(locomotive)}</p>
          <CareLine engine={locomotive} />
        </div>
        <div class="actions">
          {mayWrite() && (
            <>
              <a class="button primary" href={beginAddress(locomotive.id)}>
                Steam her now
              </a>
              <button type="button" onClick={onSteam}>
                New steaming
              </button>
              <button type="button" onClick={onEdit}>
                Edit
              </button>
            </>
          )}
          {latestFirst.length >= 2 && (
            <a
              class="button"
              href={compareAddress(
                latestFirst.slice(0, 2).map(({ id }) => id),
                "lit",
              )}
            >
              Compare her last two
            </a>
          )}
        </div>
      </div>
      {latestFirst.length === 0 ? (
        <p class="soft">No steaming yet.</p>
      ) : (
        <ol class="steamings">
          {latestFirst.map((steaming) => (
            <SteamingRow key={steaming.id} steaming={steaming} />
          ))}
        </ol>
      )}
    </section>
  );
}

function SteamingRow({ steaming }: { steaming: SteamingSummary }) {
  const { steamingRate, waterPerLap, fuelPerLap, efficiency } = steaming.figures;
  return (
    <li>
      <div class="steaming-name">
        <a href={sheetAddress(steaming.id)}>
          {steaming.title ?? purposeNames[steaming.purpose]}
          <span class="unseen">, {dateInWords(steaming.startedAt)}</span>
        </a>
        <p class="soft">
          {dateInWords(steaming.startedAt)}, {clockTime(steaming.startedAt)}
          {steaming.title !== undefined && `, ${purposeNames[steaming.purpose]}`}
        </p>
        <p class="soft">
          {counted(steaming.entries, "entry", "entries")}
          {steaming.laps > 0 && `, ${counted(steaming.laps, "lap")}`}
        </p>
      </div>
      <dl class="key-figures">
        <KeyFigure name="Steaming rate" figure={steamingRate} />
        <KeyFigure name="Water a lap" figure={waterPerLap} />
        <KeyFigure name="Fuel a lap" figure={fuelPerLap} />
        <KeyFigure name="Efficiency" figure={efficiency} perCent />
      </dl>
    </li>
  );
}

interface KeyFigureProperties {
  name: string;
  figure: SteamingSummary["figures"]["efficiency"];
  perCent?: boolean;
}

/** Figures that cannot be had are left blank here; the test sheet says why. */
function KeyFigure({ name, figure, perCent }: KeyFigureProperties) {
  return (
    <div class={figure.value === null ? "none" : ""}>
      <dt>{name}</dt>
      <dd>
        {figure.value === null ? (
          <span title={figure.why}>
            <span aria-hidden="true">–</span>
            <span class="unseen">not to be had: {figure.why}</span>
          </span>
        ) : (
          <Figure figure={figure} form={perCent === true ? "per-cent" : "as-is"} />
        )}
      </dd>
    </div>
  );
}
