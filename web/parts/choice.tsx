interface Properties<Value extends string> {
  legend: string;
  choices: readonly (readonly [Value, string])[];
  chosen: Value;
  onChoose: (value: Value) => void;
}

/** One of a few, all in sight. */
export function Choice<Value extends string>({ legend, choices, chosen, onChoose }: Properties<Value>) {
  return (
    <fieldset class="choice">
      <legend>{legend}</legend>
      {choices.map(([value, name]) => (
        <label key={value}>
          <input type="radio" name={legend} checked={chosen === value} onChange={() => onChoose(value)} />
          <span>{name}</span>
        </label>
      ))}
    </fieldset>
  );
}
