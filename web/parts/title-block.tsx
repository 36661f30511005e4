import type { ComponentChildren } from "preact";

/** Every page and every print ends in it, as a drawing does. */
export function TitleBlock({
  cells,
}: {
  cells: readonly (readonly [name: string, what: ComponentChildren])[];
}) {
  return (
    <dl class="title-block">
      {cells.map(([name, what]) => (
        <div key={name} class={typeof what === "string" && what.length > 30 ? "wide" : ""}>
          <dt>{name}</dt>
          <dd>{what}</dd>
        </div>
      ))}
    </dl>
  );
}
