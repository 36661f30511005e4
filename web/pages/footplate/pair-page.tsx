import { goTo } from "../../route.ts";
import { PairingLine } from "./pairing-line.tsx";

/** Where a code shown by the server is typed in. */
export function PairPage() {
  return (
    <>
      <h1>Pair this phone</h1>
      <PairingLine refusal={null} onPaired={() => goTo("#/footplate")} />
    </>
  );
}
