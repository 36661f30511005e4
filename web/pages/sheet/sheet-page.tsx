import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Sheet } from "../../api/shapes.ts";
import { Cautions } from "../../parts/cautions.tsx";
import { Loading } from "../../parts/loading.tsx";
import { Refused } from "../../parts/refused.tsx";
import { route } from "../../route.ts";
import { ChooseSheet } from "./choose-sheet.tsx";
import { SheetView } from "./sheet-view.tsx";
import { useGrowth } from "./use-growth.ts";

export default function SheetPage() {
  const { id } = route.value;
  return id === null ? <ChooseSheet /> : <OneSheet id={id} />;
}

function OneSheet({ id }: { id: string }) {
  const { loaded, reload } = useLoaded<Sheet>(furtherAddresses.sheet(id));
  const { value: sheet, refusal } = loaded.value;
  const grown = useGrowth(id, reload);
  if (sheet === null) {
    return (
      <>
        <h1>Test sheet</h1>
        <Loading what="test sheet" refusal={refusal} retry={() => void reload()} />
        <Cautions />
      </>
    );
  }
  return (
    <>
      <p class="on-screen grown" role="status">
        {grown !== null && `In steam: brought up to date at ${grown}.`}
      </p>
      <SheetView sheet={sheet} reload={reload} />
      {refusal !== null && (
        <div class="on-screen behind">
          <Refused word="Not brought up to date" refusal={refusal} retry={() => void reload()} />
        </div>
      )}
    </>
  );
}
