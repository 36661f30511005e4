import { useEffect, useRef } from "preact/hooks";
import type { PairingCode } from "../../api/shapes.ts";
import { fieldNow } from "../../forms/field-now.ts";
import { Notice } from "../../parts/notice.tsx";
import { clockTime } from "../../words/time.ts";
import { QrCode } from "./qr-code.tsx";

/** What lets a device in: a code that is used up by it, or a link that holds a key of its own. */
export type Given =
  | ({ what: "code" } & PairingCode)
  | { what: "link"; name: string; address: string; link: string };

/** To be read off the screen, typed or pointed at with a camera. */
export function GivenPass({ given }: { given: Given }) {
  const block = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (given.link !== "") block.current?.focus();
  }, [given.link]);
  return (
    <div class="given-pass" tabIndex={-1} ref={block}>
      <QrCode text={given.link} name={given.what === "code" ? "The pairing page" : "The reading link"} />
      <div>
        {given.what === "code" ? (
          <>
            <p class="code">{given.code}</p>
            <p>Good once, until {clockTime(fieldNow(new Date(given.expiresAt)))}.</p>
            <p>
              Point the phone's camera at the square, or open <code>{`${given.address}/#/pair`}</code> on it
              and give the code.
            </p>
          </>
        ) : (
          <>
            <h3>Reading link for {given.name}</h3>
            <p>
              <code>{given.link}</code>
            </p>
            <p>It is shown this once: pass it on now, or point a camera at the square.</p>
          </>
        )}
        {given.address.startsWith("http:") && (
          <Notice grade="plain" word="This is plain http:">
            anyone in this network can read what is sent, the device's key too. Use it in a network you trust,
            or start the server with a certificate of your own (<code>--tls-cert</code>,{" "}
            <code>--tls-key</code>).
          </Notice>
        )}
      </div>
    </div>
  );
}
