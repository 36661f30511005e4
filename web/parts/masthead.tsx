import { currentRoom, rooms } from "../rooms.ts";
import { LightChoice, UnitChoice } from "./reader-choices.tsx";

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
          <LightChoice />
          <UnitChoice legend="Pressure" quantity="pressure" />
          <UnitChoice legend="Water and fuel" quantity="volume" />
          <UnitChoice legend="Lengths" quantity="length" />
          <UnitChoice legend="Temperature" quantity="temperature" />
        </div>
      </details>
    </header>
  );
}
