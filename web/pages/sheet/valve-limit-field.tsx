import { USUAL_VALVE_LIMIT } from "../../../src/analysis/words/valve-meaning.ts";
import { chooseValveLimit, valveLimit } from "../../preferences/valve-limit.ts";
import { typedNumber } from "../../words/number.ts";

/** What the owner's code allows; the sheet and its print are held against it. */
export function ValveLimitField() {
  const id = "valve-limit";
  return (
    <div class="field on-screen">
      <label for={id}>
        Your code's limit above working pressure <span class="unit">%</span>
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        inputMode="decimal"
        defaultValue={
          valveLimit.value === null ? "" : String(Number((100 * valveLimit.value).toPrecision(6)))
        }
        aria-describedby={`${id}-hint`}
        onInput={(event) => chooseValveLimit(typedNumber(event.currentTarget.value))}
      />
      <p class="hint" id={`${id}-hint`}>
        {100 * USUAL_VALVE_LIMIT} if left empty (common practice). Kept in this browser.
      </p>
    </div>
  );
}
