import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { footplateAddress } from "../../route.ts";
import { begunWords } from "./over-here.tsx";

/** A steaming that goes on, on this phone or at the server. */
export interface GoingOn {
  head: Pick<SteamingHead, "id" | "title" | "purpose" | "startedAt">;
  engine: Locomotive;
  elsewhere?: boolean;
  refused?: string;
}

export const goingOnWords = ({ head, elsewhere, refused }: GoingOn): string =>
  `${begunWords(head)}${elsewhere ? ", on another device" : ""}${refused === undefined ? "" : ", refused by the server"}`;

/** Each is opened, and recorded, by a tap. */
export const GoingOnList = ({ steamings }: { steamings: readonly GoingOn[] }) => (
  <section class="ruled">
    <h2>Going on</h2>
    <div class="panel-keys">
      {steamings.map((each) => (
        <a key={each.head.id} class="button key" href={footplateAddress(each.head.id)}>
          {each.engine.name}
          <span class="sub">{goingOnWords(each)}</span>
        </a>
      ))}
    </div>
  </section>
);
