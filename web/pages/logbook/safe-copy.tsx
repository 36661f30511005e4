import { useSignal } from "@preact/signals";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import type { Backup } from "../../api/shapes.ts";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { plain } from "../../words/number.ts";

/** The whole of what is kept, copied and read through at the server. */
export function SafeCopy() {
  const busy = useSignal(false);
  const copy = useSignal<Backup | null>(null);
  const refusal = useSignal<Refusal | null>(null);
  const make = async () => {
    busy.value = true;
    copy.value = null;
    refusal.value = null;
    try {
      copy.value = await call<Backup>("POST", furtherAddresses.backups);
    } catch (error) {
      refusal.value = asRefusal(error);
    }
    busy.value = false;
  };
  return (
    <section class="ruled safe-copy" aria-labelledby="copy-title">
      <h2 id="copy-title">A safe copy</h2>
      <p>
        All that is kept here, as one file beside the database. The copy is read through before it counts.
      </p>
      <button type="button" disabled={busy.value} onClick={() => void make()}>
        Keep a safe copy now
      </button>
      <div role="status">
        {busy.value && <p class="loading">Copying</p>}
        {copy.value !== null && <Kept copy={copy.value} />}
      </div>
      {refusal.value !== null && <Refused word="No copy was kept" refusal={refusal.value} />}
    </section>
  );
}

function Kept({ copy }: { copy: Backup }) {
  const [, folder = "", name = copy.file] = /^(.*)[/\\]([^/\\]+)$/.exec(copy.file) ?? [];
  return (
    <Notice grade="done" word="Kept:">
      <code>{name}</code>, {sizeInWords(copy.bytes)}, in <code>{folder}</code>. A disk can fail: carry a copy
      of it to another one.
    </Notice>
  );
}

/** 1 kB is 1000 bytes. */
const sizeInWords = (bytes: number): string =>
  bytes < 1_000_000 ? `${plain(bytes / 1000, 0)} kB` : `${plain(bytes / 1_000_000, 1)} MB`;
