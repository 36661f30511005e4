import type { Refusal } from "../../api/client.ts";
import { contact } from "../../outbox/outbox-state.ts";
import { later } from "../../parts/later.tsx";

/** It comes when it is wanted: a server that does not know this phone is there, and a phone needs it once. */
const PairHere = later("Pair this phone", () => import("./pairing-form.tsx"));

/** Where the server does not know this phone: how it is made known. */
export const PairingLine = ({ refusal }: { refusal: Refusal | null }) =>
  refusal?.code === "not-paired" || contact.value.trouble === "not-paired" ? <PairHere /> : null;
