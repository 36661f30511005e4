import type { Problem } from "../../src/logbook/problems.ts";
import { heardMay, token } from "./token.ts";

/** The server said no, or did not answer: in words, with every problem it named. */
export class Refusal extends Error {
  readonly status: number;
  readonly code: string;
  readonly problems: readonly Problem[];

  constructor(status: number, code: string, message: string, problems: readonly Problem[] = []) {
    super(message);
    this.name = "Refusal";
    this.status = status;
    this.code = code;
    this.problems = problems;
  }
}

export const notAnswering = () =>
  new Refusal(0, "no-answer", "The server does not answer. Nothing is lost: what you have here stays here.");

/** A server that takes longer does not answer. */
const PATIENCE_MS = 60_000;

/** One call of the server's interface; the answer's JSON, or a Refusal. */
export async function call<Answer>(
  method: string,
  path: string,
  body?: unknown,
  patienceMs = PATIENCE_MS,
): Promise<Answer> {
  const text = body === undefined ? undefined : JSON.stringify(body);
  return callWithText<Answer>(method, path, text, patienceMs);
}

/** The same with a body that is text already (a file as it was chosen). */
export async function callWithText<Answer>(
  method: string,
  path: string,
  text?: string,
  patienceMs = PATIENCE_MS,
): Promise<Answer> {
  let response: Response;
  try {
    response = await fetch(path, {
      method,
      signal: AbortSignal.timeout(patienceMs),
      ...(text === undefined ? {} : { body: text }),
      headers: {
        ...(text === undefined ? {} : { "content-type": "application/json" }),
        ...(token.value === null ? {} : { authorization: `Bearer ${token.value}` }),
      },
    });
  } catch {
    throw notAnswering();
  }
  heardMay(response.headers.get("lapwater-may"));
  const answer: unknown = response.status === 204 ? undefined : await readJson(response);
  if (!response.ok) throw refusalFrom(response.status, answer);
  return answer as Answer;
}

async function readJson(response: Response): Promise<unknown> {
  try {
    return await response.json();
  } catch {
    return undefined;
  }
}

function refusalFrom(status: number, answer: unknown): Refusal {
  if (answer === null || typeof answer !== "object") {
    return new Refusal(status, "unreadable", `The server answered with status ${status} and no reason.`);
  }
  const { code, message, path, problems } = answer as Record<string, unknown>;
  const words = typeof message === "string" ? message : `The server answered with status ${status}.`;
  const listed = Array.isArray(problems) ? (problems as Problem[]) : [];
  return new Refusal(
    status,
    typeof code === "string" ? code : "refused",
    typeof path === "string" && listed.length === 0 ? `${path}: ${words}` : words,
    listed,
  );
}

/** Any error as a Refusal, so that a page can always say it in words. */
export const asRefusal = (error: unknown): Refusal =>
  error instanceof Refusal
    ? error
    : new Refusal(0, "failed", error instanceof Error ? error.message : String(error));
