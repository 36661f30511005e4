import { useEffect, useRef } from "preact/hooks";
import type { Problem } from "../../src/logbook/problems.ts";
import type { Refusal } from "../api/client.ts";
import { Mark } from "./mark.tsx";

interface Properties {
  refusal: Refusal;
  /** what was not done, such as "Not saved" */
  word: string;
  retry?: () => void;
  /** for each problem the id of the field that it names, if there is one */
  fieldOf?: (problem: Problem) => string | null;
}

/** The server's no, in words, with every problem; takes the focus so that it is not missed. */
export function Refused({ refusal, word, retry, fieldOf }: Properties) {
  const block = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (refusal.status !== 0 || retry === undefined) block.current?.focus();
  }, [refusal, retry]);
  return (
    <div class="notice danger" role="alert" tabIndex={-1} ref={block}>
      <Mark of="danger" /> <strong>{word}.</strong> {refusal.message}
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
  fieldOf?: ((problem: Problem) => string | null) | undefined;
}

export function ProblemList({ problems, fieldOf }: ListProperties) {
  return (
    <ol class="problems">
      {problems.map((problem) => {
        const field = fieldOf?.(problem) ?? null;
        return (
          <li key={`${problem.path} ${problem.came}`}>
            {field === null ? (
              <code>{problem.path}</code>
            ) : (
              <button type="button" class="as-link" onClick={() => document.getElementById(field)?.focus()}>
                {problem.path}
              </button>
            )}
            : came {problem.came}; wanted {problem.wanted}
          </li>
        );
      })}
    </ol>
  );
}
