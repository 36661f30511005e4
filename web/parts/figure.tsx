import type { Reported } from "../../src/quantity/reported.ts";
import { type Form, figureText } from "../words/figure-text.ts";

interface Properties {
  figure: Reported;
  form?: Form | undefined;
  decimals?: number | undefined;
}

/** A figure with its unit, and under it where it lies; or why there is none. */
export function Figure({ figure, form, decimals }: Properties) {
  const text = figureText(figure, form, decimals);
  if (text.value === null) return <span class="why">{text.why}</span>;
  return (
    <span class="figure">
      <data value={String(figure.value)}>{text.value}</data>
      {text.unit !== "" && <span class="unit"> {text.unit}</span>}
      {text.interval !== null && <span class="interval">{text.interval}</span>}
    </span>
  );
}

/** Where the doubt of a figure comes from, the greatest first. */
export function Doubt({ figure, form }: Properties) {
  const text = figureText(figure, form);
  if (text.value === null) return null;
  if (text.parts.length === 0) return <p class="doubt">Nothing in doubt is declared for it.</p>;
  const telling = text.parts.filter((part) => part.share >= 0.005);
  const smaller = text.parts.length - telling.length;
  return (
    <table class="doubt">
      <caption>Where the doubt comes from</caption>
      <thead>
        <tr>
          <th scope="col">cause</th>
          <th scope="col">standard uncertainty</th>
          <th scope="col">share</th>
        </tr>
      </thead>
      <tbody>
        {telling.map((part) => (
          <tr key={part.name}>
            <th scope="row">{part.name}</th>
            <td>
              {part.plusMinus} {text.unit}
            </td>
            <td>{Math.round(part.share * 100)} %</td>
          </tr>
        ))}
        {smaller > 0 && (
          <tr>
            <th scope="row">{smaller} smaller</th>
            <td />
            <td>less than 1 %</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
