import { useEffect, useRef } from "preact/hooks";
import type { Problem } from "../../src/logbook/problems.ts";
import type { Refusal } from "../api/client.ts";
import { Mark } from "./mark.tsx";

interface Properties {
  refusal: Refusal;
  /** what was not done, such as "Not saved" */
  word: string;
  retry?: () => void;
  /** for each problem the id of the field that it names */
  fieldOf?: (problem: Problem) => string;
}

/** The server's no, in words, with every problem; takes the focus so that it is not missed. */
export function Refused({ refusal, word, retry, fieldOf }: Properties) {
  const block = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (refusal.status !== 0 || retry === undefined) block.current?.focus();
  }, [refusal, retry]);
  return (
    <div class="notice danger" role="alert" tabIndex={-1} ref={block}>
      <Mark of="danger" /> <strong>{word}:</strong> {refusal.problems.length === 0 && refusal.message}
      {refusal.problems.length > 0 && <ProblemList problems={refusal.problems} fieldOf={fieldOf} />}
      {retry !== undefined && (
        <p>
          <button type="button" onClick={retry}>
            Try again
          </button>
        </p>
      )}
    </div>
  );
}

interface ListProperties {
  problems: readonly Problem[];
  fieldOf?: ((problem: Problem) => string) | undefined;
}

export function ProblemList({ problems, fieldOf }: ListProperties) {
  return (
    <ol class="problems">
      {problems.map((problem) => (
        <li key={`${problem.path} ${problem.came}`}>
          <Place problem={problem} fieldOf={fieldOf} />
          {`: ${problemWords(problem)}`}
        </li>
      ))}
    </ol>
  );
}

const problemWords = ({ came, wanted }: Problem): string => `came ${came}; wanted ${wanted}`;

/** The path, or the label of the field that stands for it: it leads there, out of whatever fold hides it. */
function Place({ problem, fieldOf }: { problem: Problem } & Pick<ListProperties, "fieldOf">) {
  const field = fieldOf === undefined ? null : document.getElementById(fieldOf(problem));
  if (field === null) return <code>{problem.path}</code>;
  const label = document.querySelector(`label[for="${CSS.escape(field.id)}"] .label-words`)?.textContent;
  return (
    <button
      type="button"
      class="as-link"
      onClick={() => {
        field.closest("details")?.setAttribute("open", "");
        field.focus();
      }}
    >
      {label ?? problem.path}
    </button>
  );
}
