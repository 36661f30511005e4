import { Choice } from "../../parts/choice.tsx";
import { LightChoice, UnitChoice } from "../../parts/reader-choices.tsx";
import { chooseFootplate, footplate } from "../../preferences/footplate.ts";
import { units } from "../../preferences/units.ts";

const dueChoices = [0, 1, 2, 3, 5, 10] as const;
const dueName = (minutes: number) => (minutes === 0 ? "never" : `${minutes} min`);
const divisions = { bar: [0.05, 0.1, 0.2, 0.5], psi: [0.5, 1, 2, 5] };

export function FootplateSettings() {
  const chosen = footplate.value;
  const unit = units.value.pressure;
  return (
    <div class="settings-body">
      <LightChoice />
      <Choice
        legend="Hand"
        choices={[
          ["right", "right"],
          ["left", "left"],
        ]}
        chosen={chosen.hand}
        onChoose={(hand) => chooseFootplate({ hand })}
      />
      <UnitChoice legend="The gauge reads in" quantity="pressure" />
      <Choice
        legend="One division of the gauge"
        choices={divisions[unit].map((each) => [String(each), `${each} ${unit}`] as const)}
        chosen={String(chosen.pressureDivision[unit])}
        onChoose={(each) =>
          chooseFootplate({ pressureDivision: { ...chosen.pressureDivision, [unit]: Number(each) } })
        }
      />
      <Choice
        legend="The glass is read to"
        choices={[0.5, 1].map((each) => [String(each), `${each} mm`] as const)}
        chosen={String(chosen.levelDivisionMm)}
        onChoose={(each) => chooseFootplate({ levelDivisionMm: Number(each) })}
      />
      {(["pressureDueMin", "waterDueMin"] as const).map((what) => (
        <Choice
          key={what}
          legend={`${what === "waterDueMin" ? "Water" : "Pressure"} is due after`}
          choices={dueChoices.map((each) => [String(each), dueName(each)] as const)}
          chosen={String(chosen[what])}
          onChoose={(each) => chooseFootplate({ [what]: Number(each) })}
        />
      ))}
      {(["sound", "tick", "buzz"] as const).map((what) => (
        <Choice
          key={what}
          legend={{ sound: "Sound of alarms", tick: "Tick at a tap", buzz: "Buzz" }[what]}
          choices={[
            ["on", "on"],
            ["off", "off"],
          ]}
          chosen={chosen[what] ? "on" : "off"}
          onChoose={(on) => chooseFootplate({ [what]: on === "on" })}
        />
      ))}
    </div>
  );
}
