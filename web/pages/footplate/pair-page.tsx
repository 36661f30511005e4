import { goTo } from "../../route.ts";
import { PairingForm } from "./pairing-form.tsx";

/** Where a code shown by the server is typed in. A device that may only view is led to the Shed, which shows who is in steam. */
export default function PairPage() {
  return (
    <>
      <h1>Pair this phone</h1>
      <PairingForm onPaired={(may) => goTo(may === "record" ? "#/footplate" : "#/shed")} />
    </>
  );
}
