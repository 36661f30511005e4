import type { Book } from "../../../src/care/book-schema.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import { fitterAddress } from "../../room-addresses.ts";
import { StateMark } from "./state-mark.tsx";

/** In the Shed: how many fittings want attention, and the worst one in words. */
export function CareLine({ engine }: { engine: Locomotive }) {
  const { loaded } = useLoaded<Book>(engine.fittings.length === 0 ? null : furtherAddresses.book(engine.id));
  const care = loaded.value.value;
  const book = <a href={fitterAddress(engine.id)}>Fitter's book</a>;
  if (care === null) return <p class="care-line">{book}</p>;
  const inState = (state: string) => care.fittings.filter((one) => one.state === state);
  const [attend, watch] = [
    inState("attend"),
    inState("watch").filter(({ sure }) => sure !== "nothing known"),
  ];
  const unread = inState("watch").length - watch.length;
  const worst = attend[0] ?? watch[0];
  return (
    <div class="care-line">
      <p>
        <strong>{attend.length} to attend to</strong>, {watch.length} to watch
        {unread > 0 && `; nothing is known of ${unread}`}. {book}
      </p>
      {worst !== undefined && (
        <p>
          <StateMark state={worst.state} /> <strong>{worst.fitting.name}.</strong> {worst.why}
        </p>
      )}
    </div>
  );
}
