import type { Refusal } from "../api/client.ts";
import { Refused } from "./refused.tsx";

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
    <Refused word={`No ${what}`} refusal={refusal} retry={retry} />
  );
}
