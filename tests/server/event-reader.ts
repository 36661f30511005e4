import { type ClientRequest, get, type IncomingMessage } from "node:http";

export interface Seen {
  id: number;
  event: string;
  data: Record<string, unknown>;
}

/** One open stream of server-sent events, read as a browser reads it. */
export class EventReader {
  readonly events: Seen[] = [];
  readonly comments: string[] = [];
  /** last id that came, with an event or without one */
  lastId = "";
  readonly opened: Promise<IncomingMessage>;
  /** how it ended: null where it ended in good order */
  readonly ended: Promise<Error | null>;
  readonly #request: ClientRequest;
  #rest = "";
  #waiting: (() => void)[] = [];

  constructor(url: string, headers: Record<string, string> = {}) {
    this.#request = get(url, { headers, agent: false });
    this.opened = new Promise((resolve, reject) => {
      this.#request.once("response", resolve).once("error", reject);
    });
    this.ended = this.opened.then(
      (response) =>
        new Promise((resolve) => {
          response.setEncoding("utf8").on("data", (text: string) => this.#take(text));
          response.once("end", () => resolve(null)).once("error", resolve);
        }),
      (error: Error) => error,
    );
    this.ended.then(() => this.#wake());
  }

  /** Waits until the condition holds, or the stream has ended. */
  async until(condition: () => boolean): Promise<void> {
    let isEnded = false;
    this.ended.then(() => {
      isEnded = true;
    });
    while (!condition()) {
      if (isEnded) throw new Error("the stream ended");
      await new Promise<void>((resolve) => this.#waiting.push(resolve));
      await Promise.resolve();
    }
  }

  close(): void {
    this.#request.destroy();
  }

  #wake(): void {
    for (const resolve of this.#waiting.splice(0)) resolve();
  }

  #take(text: string): void {
    const blocks = (this.#rest + text).split("\n\n");
    this.#rest = blocks.pop() ?? "";
    for (const block of blocks) {
      const fields = new Map<string, string>();
      for (const line of block.split("\n")) {
        if (line.startsWith(":")) this.comments.push(line.slice(1).trim());
        else fields.set(line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 2));
      }
      this.lastId = fields.get("id") ?? this.lastId;
      const data = fields.get("data");
      if (data === undefined) continue;
      this.events.push({
        id: Number(this.lastId),
        event: fields.get("event") ?? "message",
        data: JSON.parse(data) as Record<string, unknown>,
      });
    }
    this.#wake();
  }
}
