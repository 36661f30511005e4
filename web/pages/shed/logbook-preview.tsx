import type { Refusal } from "../../api/client.ts";
import type { ImportOutcome } from "../../api/shapes.ts";
import { Notice } from "../../parts/notice.tsx";
import { ProblemList, Refused } from "../../parts/refused.tsx";

/** A file that was chosen and what the server says of it; nothing is written until it is told to. */
export interface ChosenFile {
  name: string;
  text: string;
  outcome: ImportOutcome | null;
  refusal: Refusal | null;
}

interface PreviewProperties {
  chosen: ChosenFile;
  busy: boolean;
  onAdd: (file: ChosenFile) => void;
  onLeave: () => void;
}

export function LogbookPreview({ chosen, busy, onAdd, onLeave }: PreviewProperties) {
  const { name, outcome, refusal } = chosen;
  const problems = outcome?.problems ?? [];
  return (
    <div class="preview">
      <h3>{name}</h3>
      {refusal !== null && <Refused word="Nothing was added" refusal={refusal} />}
      {outcome !== null && problems.length > 0 && (
        <Notice
          grade="danger"
          word={`${problems.length === 1 ? "One problem" : `${problems.length} problems`}; nothing was added.`}
        >
          Mend the file and bring it in again.
          <ProblemList problems={problems} />
        </Notice>
      )}
      {outcome !== null && problems.length === 0 && <Counts outcome={outcome} />}
      <div class="actions">
        {outcome !== null && problems.length === 0 && (
          <button type="button" class="primary" disabled={busy} onClick={() => onAdd(chosen)}>
            Add it
          </button>
        )}
        <button type="button" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </div>
  );
}

const countNames = [
  ["locomotives", "engine", "engines"],
  ["steamings", "steaming", "steamings"],
  ["entries", "entry", "entries"],
  ["services", "service", "services"],
] as const;

function Counts({ outcome }: { outcome: ImportOutcome }) {
  return (
    <table>
      <caption class="unseen">What the file would add</caption>
      <thead>
        <tr>
          <th scope="col">Of the file</th>
          <th scope="col">new</th>
          <th scope="col">here already</th>
          <th scope="col">here with other content</th>
        </tr>
      </thead>
      <tbody>
        {countNames.map(([key, , many]) => (
          <tr key={key}>
            <th scope="row">{many}</th>
            <td>{outcome[key].added}</td>
            <td>{outcome[key].same}</td>
            <td>{outcome[key].differs}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export function countsInWords(outcome: ImportOutcome): string {
  const added = countNames.flatMap(([key, one, many]) => {
    const count = outcome[key].added;
    return count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
  });
  return added.length === 0 ? "all of it was here already" : `${added.join(", ")} added`;
}
