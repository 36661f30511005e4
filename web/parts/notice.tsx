import type { ComponentChildren } from "preact";
import { Mark } from "./mark.tsx";

interface Properties {
  /** how grave: the ground, the mark and the word change together */
  grade: "plain" | "caution" | "danger" | "done";
  word: string;
  children?: ComponentChildren;
}

export function Notice({ grade, word, children }: Properties) {
  return (
    <div class={`notice ${grade}`}>
      {grade !== "plain" && <Mark of={grade} />} <strong>{word}</strong> {children}
    </div>
  );
}
