import { chooseTheme, theme, themeNames, themes } from "../preferences/theme.ts";
import { chooseUnit, type Quantity, unitChoices, units } from "../preferences/units.ts";
import { currentRoom, rooms } from "../rooms.ts";
import { Choice } from "./choice.tsx";

export function Masthead() {
  return (
    <header class="masthead">
      <a class="name" href="#/shed">
        Lapwater
      </a>
      <nav aria-label="Rooms">
        {rooms
          .filter((room) => room.aside !== true)
          .map((room) => (
            <a
              key={room.path}
              href={room.address()}
              {...(currentRoom.value === room ? { "aria-current": "page" as const } : {})}
            >
              {room.name}
            </a>
          ))}
      </nav>
      <details class="settings">
        <summary>Units and light</summary>
        <div class="settings-body">
          <Choice
            legend="Light"
            choices={themes.map((each) => [each, themeNames[each]] as const)}
            chosen={theme.value}
            onChoose={chooseTheme}
          />
          <UnitChoice legend="Pressure" quantity="pressure" />
          <UnitChoice legend="Water and fuel" quantity="volume" />
          <UnitChoice legend="Lengths" quantity="length" />
          <UnitChoice legend="Temperature" quantity="temperature" />
        </div>
      </details>
    </header>
  );
}

function UnitChoice({ legend, quantity }: { legend: string; quantity: Quantity }) {
  return (
    <Choice
      legend={legend}
      choices={unitChoices[quantity].map((unit) => [unit, unit] as const)}
      chosen={units.value[quantity]}
      onChoose={(unit) => chooseUnit(quantity, unit)}
    />
  );
}
