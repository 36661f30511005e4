import type { Refusal } from "../api/client.ts";
import { Notice } from "./notice.tsx";

interface Properties {
  what: string;
  refusal: Refusal | null;
  retry: () => void;
}

/** In place of what is not there yet. */
export function Loading({ what, refusal, retry }: Properties) {
  return refusal === null ? (
    <p class="loading" role="status">
      Fetching {what}
    </p>
  ) : (
    <div role="alert">
      <Notice grade="danger" word="Not fetched:">
        {refusal.message}{" "}
        {refusal.code === "not-paired" ? (
          <a class="button" href="#/pair">
            Pair this device
          </a>
        ) : (
          <button type="button" onClick={retry}>
            Try again
          </button>
        )}
      </Notice>
    </div>
  );
}
