import { type Signal, useSignal } from "@preact/signals";
import { asRefusal, call, type Refusal } from "../api/client.ts";

/** Sending a form: what was typed stays whatever comes back. */
export function useSubmit(): {
  sending: Signal<boolean>;
  refusal: Signal<Refusal | null>;
  submit: (method: string, path: string, body: unknown) => Promise<boolean>;
} {
  const sending = useSignal(false);
  const refusal = useSignal<Refusal | null>(null);
  const submit = async (method: string, path: string, body: unknown) => {
    sending.value = true;
    try {
      await call(method, path, body);
      refusal.value = null;
      return true;
    } catch (error) {
      refusal.value = asRefusal(error);
      return false;
    } finally {
      sending.value = false;
    }
  };
  return { sending, refusal, submit };
}
