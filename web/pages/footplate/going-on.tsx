import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { mayWrite } from "../../api/token.ts";
import { footplateAddress } from "../../route.ts";
import { begunWords, drop, isEmpty, useRecordsOf } from "./over-here.tsx";

/** A steaming that goes on, on this phone or at the server. */
export interface GoingOn {
  head: Pick<SteamingHead, "id" | "title" | "purpose" | "startedAt">;
  engine: Locomotive;
  elsewhere?: boolean;
  refused?: string;
}

export const goingOnWords = ({ head, elsewhere, refused }: GoingOn): string =>
  `${begunWords(head)}${elsewhere ? ", on another device" : ""}${refused === undefined ? "" : ", refused by the server"}`;

/** Each is opened, and recorded, by a tap; one in which nothing was written can be dropped. */
export const GoingOnList = ({ steamings }: { steamings: readonly GoingOn[] }) => (
  <section class="ruled">
    <h2>Going on</h2>
    <div class="panel-keys">
      {steamings.map((each) => (
        <OneGoingOn key={each.head.id} {...each} />
      ))}
    </div>
  </section>
);

function OneGoingOn(each: GoingOn) {
  const { engine, head, elsewhere } = each;
  const nothingWritten = isEmpty(useRecordsOf(head)) && !elsewhere;
  return (
    <>
      <a class="button key" href={footplateAddress(head.id)}>
        {engine.name}
        <span class="sub">{goingOnWords(each)}</span>
      </a>
      {nothingWritten && mayWrite() && (
        <button type="button" class="key" onClick={() => void drop(head.id)}>
          Drop it<span class="sub">nothing written</span>
        </button>
      )}
    </>
  );
}
