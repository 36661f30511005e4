import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { furtherAddresses } from "../../api/further-addresses.ts";
import type { Device } from "../../api/shapes.ts";
import { fieldNow } from "../../forms/field-now.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Refused } from "../../parts/refused.tsx";
import { clockTime, dateInWords } from "../../words/time.ts";

const mayWords = { record: "may record", view: "may view" } as const;

/** Which devices the server answers in the network, and the end of each. */
export function DeviceList({ devices, onDone }: { devices: Device[]; onDone: (words: string) => void }) {
  return (
    <section class="ruled" aria-labelledby="devices-title">
      <h2 id="devices-title">Paired devices</h2>
      <p class="soft">
        The server's own machine needs no pairing. Devices are removed there; a device may also remove itself.
      </p>
      {devices.length === 0 ? (
        <p>No device is paired.</p>
      ) : (
        <ul class="devices">
          {devices.map((device) => (
            <DeviceLine key={device.id} device={device} onDone={onDone} />
          ))}
        </ul>
      )}
    </section>
  );
}

interface LineProperties {
  device: Device;
  onDone: (words: string) => void;
}

function DeviceLine({ device, onDone }: LineProperties) {
  const sure = useSignal(false);
  const since = fieldNow(new Date(device.pairedAt));
  return (
    <li>
      <strong>{device.name}</strong>
      <span>
        {mayWords[device.may]}, since {dateInWords(since)}, {clockTime(since)}
      </span>
      {sure.value ? (
        <AskRemoval
          device={device}
          onDone={onDone}
          onLeave={() => {
            sure.value = false;
          }}
        />
      ) : (
        <button
          type="button"
          onClick={() => {
            sure.value = true;
          }}
        >
          Remove
          <span class="unseen"> {device.name}</span>
        </button>
      )}
    </li>
  );
}

const lossWords = {
  record: "What it has sent stays in the logbook; entries it has not sent yet stay on it.",
  view: "Its reading link no longer opens anything.",
} as const;

function AskRemoval({ device, onDone, onLeave }: LineProperties & { onLeave: () => void }) {
  const { sending, refusal, submit } = useSubmit();
  const block = useRef<HTMLDivElement>(null);
  // the button that led here is gone
  useEffect(() => block.current?.focus(), []);
  const remove = async () => {
    if (await submit("DELETE", furtherAddresses.device(device.id), undefined)) {
      onDone(`${device.name} is removed: it is refused from now on.`);
    }
  };
  return (
    <div class="notice caution" tabIndex={-1} ref={block}>
      <p>
        {device.name} is refused at once, and must be paired anew to come back. {lossWords[device.may]}
      </p>
      <div class="actions">
        <button type="button" class="danger" disabled={sending.value} onClick={() => void remove()}>
          Remove {device.name}
        </button>
        <button type="button" onClick={onLeave}>
          Leave it paired
        </button>
      </div>
      {refusal.value !== null && <Refused word="Not removed" refusal={refusal.value} />}
    </div>
  );
}
