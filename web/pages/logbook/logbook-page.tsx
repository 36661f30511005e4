import { useSignal } from "@preact/signals";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Device } from "../../api/shapes.ts";
import { Loading } from "../../parts/loading.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { LogbookPanel } from "../shed/logbook-panel.tsx";
import { DeviceList } from "./device-list.tsx";
import { PairSection } from "./pair-section.tsx";
import { SafeCopy } from "./safe-copy.tsx";

/** Data in, out and kept safe, and who may come at it. */
export default function LogbookPage() {
  const { loaded, reload } = useLoaded<Device[]>(furtherAddresses.devices);
  const done = useSignal<string | null>(null);
  const { value: devices, refusal } = loaded.value;
  const viewOnly = refusal?.code === "view-only";
  const finished = (words: string) => {
    done.value = words;
    void reload();
  };
  const count = (may: Device["may"]) => devices?.filter((device) => device.may === may).length ?? "";
  return (
    <>
      <div>
        <h1>Logbook</h1>
        <div role="status">{done.value !== null && <Notice grade="done" word={done.value} />}</div>
      </div>
      {viewOnly && (
        <Notice grade="plain" word="This device may only view.">
          It is not shown the other devices, pairs none, and brings nothing in; it may save all to a file.
        </Notice>
      )}
      {!viewOnly && devices === null && (
        <Loading what="list of devices" refusal={refusal} retry={() => void reload()} />
      )}
      {!viewOnly && devices !== null && (
        <>
          {refusal !== null && (
            <Refused word="Not brought up to date" refusal={refusal} retry={() => void reload()} />
          )}
          <DeviceList devices={devices} onDone={finished} />
          <PairSection devices={devices} look={reload} onDone={finished} />
          <SafeCopy />
        </>
      )}
      <LogbookPanel onDone={finished} />
      <TitleBlock
        cells={[
          ["Sheet", <strong key="name">Logbook</strong>],
          ["Devices that record", count("record")],
          ["Devices that view", count("view")],
          ["Kept by", "Lapwater"],
        ]}
      />
    </>
  );
}
