import { useSignal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useCallback, useEffect } from "preact/hooks";
import { notAnswering, type Refusal } from "../api/client.ts";
import { Loading } from "./loading.tsx";

/** A room whose script comes when it is first entered; the page is what its file exports as default. */
export function later(name: string, fetchPage: () => Promise<{ default: ComponentType }>): ComponentType {
  let fetched: ComponentType | null = null;
  return function Later() {
    const page = useSignal({ of: fetched });
    const refusal = useSignal<Refusal | null>(null);
    const load = useCallback(async () => {
      refusal.value = null;
      try {
        fetched = (await fetchPage()).default;
        page.value = { of: fetched };
      } catch {
        refusal.value = notAnswering();
      }
    }, [page, refusal]);
    useEffect(() => {
      if (fetched === null) void load();
    }, [load]);
    const Page = page.value.of;
    if (Page !== null) return <Page />;
    return (
      <>
        <h1>{name}</h1>
        <Loading what="page" refusal={refusal.value} retry={() => void load()} />
      </>
    );
  };
}
