import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Shed } from "../../api/shapes.ts";
import { Loading } from "../../parts/loading.tsx";
import { sheetAddress } from "../../route.ts";
import { purposeNames } from "../../words/names.ts";
import { dateInWords } from "../../words/time.ts";

/** The test sheets there are, where none was asked for. */
export function ChooseSheet() {
  const { loaded, reload } = useLoaded<Shed>(furtherAddresses.shed);
  const { value: shed, refusal } = loaded.value;
  if (shed === null) {
    return (
      <>
        <h1>Test sheet</h1>
        <Loading what="list of steamings" refusal={refusal} retry={() => void reload()} />
      </>
    );
  }
  const steamings = shed.engines
    .flatMap(({ locomotive, steamings: own }) =>
      own.map((steaming) => ({ engine: locomotive.name, ...steaming })),
    )
    .sort((a, b) => Date.parse(b.startedAt) - Date.parse(a.startedAt));
  return (
    <>
      <h1>Which test sheet?</h1>
      {steamings.length === 0 ? (
        <p class="lead">
          There is no steaming yet. Begin one in the <a href="#/shed">Shed</a>.
        </p>
      ) : (
        <ol class="plain-list">
          {steamings.map((steaming) => (
            <li key={steaming.id}>
              <a href={sheetAddress(steaming.id)}>
                {steaming.engine}, {dateInWords(steaming.startedAt)}:{" "}
                {steaming.title ?? purposeNames[steaming.purpose]}
              </a>
            </li>
          ))}
        </ol>
      )}
    </>
  );
}
