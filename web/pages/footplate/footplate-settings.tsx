import { Choice } from "../../parts/choice.tsx";
import { LightChoice, UnitChoice } from "../../parts/reader-choices.tsx";
import { chooseFootplate, type FootplateChoices, footplate } from "../../preferences/footplate.ts";
import { units } from "../../preferences/units.ts";

type Values = readonly (readonly [value: string | number | boolean, name: string])[];

const due = [0, 1, 2, 3, 5, 10].map(
  (minutes) => [minutes, minutes === 0 ? "never" : `${minutes} min`] as const,
);
const onOff = [
  [true, "on"],
  [false, "off"],
] as const;
const hands = ["right", "left"].map((hand) => [hand, hand] as const);
const glass = [0.5, 1].map((each) => [each, `${each} mm`] as const);
const divisions = { bar: [0.05, 0.1, 0.2, 0.5], psi: [0.5, 1, 2, 5] };

/** One of a few. @param within what of it is chosen */
function choice(legend: string, what: keyof FootplateChoices, values: Values, within?: "bar" | "psi") {
  const chosen = footplate.value[what];
  const all = within === undefined ? {} : (chosen as FootplateChoices["pressureDivision"]);
  return (
    <Choice
      key={what}
      legend={legend}
      choices={values.map(([value, name]) => [String(value), name] as const)}
      chosen={String(within === undefined ? chosen : all[within as keyof typeof all])}
      onChoose={(text) => {
        const value = values.find(([each]) => String(each) === text)?.[0];
        chooseFootplate({ [what]: within === undefined ? value : { ...all, [within]: value } });
      }}
    />
  );
}

export function FootplateSettings() {
  const unit = units.value.pressure;
  const gauge = divisions[unit].map((each) => [each, `${each} ${unit}`] as const);
  return (
    <div class="settings-body">
      <LightChoice />
      {choice("Hand", "hand", hands)}
      <UnitChoice legend="The gauge reads in" quantity="pressure" />
      {choice("One division of the gauge", "pressureDivision", gauge, unit)}
      {choice("The glass is read to", "levelDivisionMm", glass)}
      {choice("Pressure is due after", "pressureDueMin", due)}
      {choice("Water is due after", "waterDueMin", due)}
      {choice("Sound of alarms", "sound", onOff)}
      {choice("Tick at a tap", "tick", onOff)}
      {choice("Buzz", "buzz", onOff)}
    </div>
  );
}
