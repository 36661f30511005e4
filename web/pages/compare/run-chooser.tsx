import { useRef } from "preact/hooks";
import type { Alignment } from "../../../src/compare/compare-runs.ts";
import type { Shed } from "../../api/shapes.ts";
import { purposeNames } from "../../words/names.ts";
import { dateInWords } from "../../words/time.ts";
import { mostRuns } from "./run-styles.ts";

interface Properties {
  shed: Shed;
  chosen: readonly string[];
  by: Alignment;
  onRuns: (ids: string[]) => void;
  onBy: (by: Alignment) => void;
}

const alignChoices: readonly (readonly [Alignment, string])[] = [
  ["lit", "lighting up"],
  ["first-steam", "first steam"],
  ["first-lap", "first lap"],
];

export function RunChooser({ shed, chosen, by, onRuns, onBy }: Properties) {
  // open to begin with where there is something to choose; from then on as the reader leaves it
  const open = useRef(chosen.length < 2).current;
  const full = chosen.length >= mostRuns;
  const withRuns = shed.engines.filter((engine) => engine.steamings.length > 0);
  if (withRuns.length === 0) {
    return (
      <p class="lead">
        There is no steaming to compare yet. Begin one in the <a href="#/shed">Shed</a>.
      </p>
    );
  }
  return (
    <section class="chooser on-screen" aria-label="What is compared">
      <details open={open}>
        <summary>Choose two runs or more, up to twelve</summary>
        <div class="chooser-engines">
          {withRuns.map(({ locomotive, steamings }) => (
            <fieldset key={locomotive.id}>
              <legend>{locomotive.name}</legend>
              {[...steamings]
                .sort((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt))
                .map((steaming) => {
                  const isChosen = chosen.includes(steaming.id);
                  return (
                    <label key={steaming.id} class="run-choice">
                      <input
                        type="checkbox"
                        checked={isChosen}
                        disabled={full && !isChosen}
                        onChange={() =>
                          onRuns(
                            isChosen ? chosen.filter((id) => id !== steaming.id) : [...chosen, steaming.id],
                          )
                        }
                      />
                      <span>
                        {dateInWords(steaming.startedAt)}: {steaming.title ?? purposeNames[steaming.purpose]}
                      </span>
                    </label>
                  );
                })}
            </fieldset>
          ))}
        </div>
      </details>
      {chosen.length >= 2 && (
        <fieldset class="choice">
          <legend>Start the clock at</legend>
          {alignChoices.map(([value, name]) => (
            <label key={value}>
              <input type="radio" name="align" checked={by === value} onChange={() => onBy(value)} />
              <span>{name}</span>
            </label>
          ))}
        </fieldset>
      )}
    </section>
  );
}
