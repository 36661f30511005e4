import { useEffect, useRef } from "preact/hooks";
import { Masthead } from "./parts/masthead.tsx";
import { currentRoom } from "./rooms.ts";
import { route } from "./route.ts";

export function App() {
  const main = useRef<HTMLElement>(null);
  const room = currentRoom.value;
  const place = `${route.value.room}/${route.value.id ?? ""}`;
  const before = useRef(place);
  useEffect(() => {
    document.title = room === null ? "Lapwater" : `${room.name} - Lapwater`;
    if (before.current === place) return;
    before.current = place;
    scrollTo(0, 0);
    main.current?.focus();
  }, [place, room]);
  const Page = room?.page;
  // beside the track the whole screen is the recorder's; its own way out is under More
  const recording = room?.path === "footplate" && route.value.id !== null;
  return (
    <>
      <button type="button" class="skip" onClick={() => main.current?.focus()}>
        To the page itself
      </button>
      {!recording && <Masthead />}
      <main ref={main} tabIndex={-1} class={recording ? "recording" : ""}>
        {Page === undefined ? <NoSuchRoom /> : <Page key={place} />}
      </main>
    </>
  );
}

function NoSuchRoom() {
  return (
    <>
      <h1>There is no such room</h1>
      <p>
        Nothing stands at this address. <a href="#/shed">Back to the Shed</a>
      </p>
    </>
  );
}
