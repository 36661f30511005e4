import { call } from "../api/client.ts";

/** Beside the track a server that takes longer is out of reach. */
const PATIENCE_MS = 8000;

/** One call by what sends and asks in the background. @throws Refusal */
export const callSoon = <Answer>(method: string, path: string, body?: unknown): Promise<Answer> =>
  call<Answer>(method, path, body, PATIENCE_MS);
