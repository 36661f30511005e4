import { Agent, request } from "node:http";
import { EventReader } from "../server/event-reader.ts";
import { engine, head } from "../server/fixtures.ts";
import { ownNames, startServer } from "../support/server.ts";

const phones = 8;
const everyMs = 200;
const loadS = 60;
const idleRequests = 200;
const idleEveryMs = 15;

export interface PhonesOutcome {
  /** by which address: the machine's own in its network, where it has one */
  address: string;
  sent: number;
  /** anything but an entry newly kept */
  errors: number;
  /** events that the followers did not get, or got twice */
  missed: number;
  idleP50Ms: number;
  /** what the machine itself holds up, with one request at a time */
  idleP99Ms: number;
  p50Ms: number;
  p99Ms: number;
}

/**
 * Eight paired phones write five entries a second each for a minute, by the clock and not by the answers, and follow
 * one another's; against the same request when nothing else goes on. A slow answer holds up no other request; a time is that from
 * sending to answer, so that what holds up the bench itself is not laid to the server.
 */
export async function eightPhones(): Promise<PhonesOutcome> {
  const server = await startServer("--lan", "--no-demo");
  const readers: EventReader[] = [];
  const agents: Agent[] = [];
  try {
    await server.ask("/api/locomotives/engine-1", "PUT", engine);
    await server.ask("/api/steamings/steaming-1", "PUT", head);
    const address = `http://${ownNames()[1] ?? "127.0.0.1"}:${server.port}`;
    const tokens: string[] = [];
    for (let phone = 0; phone < phones; phone++) tokens.push(await server.pair("record"));

    let errors = 0;
    async function timed(agent: Agent, token: string, id: string): Promise<number> {
      const url = `${address}/api/steamings/steaming-1/entries/${id}`;
      const sentAt = performance.now();
      const status = await put(agent, url, token, { atS: 1, kind: "pressure", barG: 2.5 }).catch(() => 0);
      if (status !== 201) errors++;
      return performance.now() - sentAt;
    }

    const alone = new Agent({ keepAlive: true });
    agents.push(alone);
    const idle: number[] = [];
    for (let i = 0; i < idleRequests; i++) {
      idle.push(await timed(alone, tokens[0] ?? "", `idle-${i}`));
      await until(performance.now() + idleEveryMs);
    }

    readers.push(...tokens.map((token) => new EventReader(`${address}/api/live?token=${token}`)));
    await Promise.all(readers.map((reader) => reader.until(() => reader.lastId !== "")));
    const begin = performance.now() + 100;
    const each = (loadS * 1000) / everyMs;
    const times = await Promise.all(
      tokens.map(async (token, phone) => {
        const agent = new Agent({ keepAlive: true });
        agents.push(agent);
        const sent: Promise<number>[] = [];
        for (let i = 0; i < each; i++) {
          await until(begin + i * everyMs + (phone * everyMs) / phones);
          sent.push(timed(agent, token, `p${phone}-${i}`));
        }
        return Promise.all(sent);
      }),
    );
    const load = times.flat();
    const wanted = phones * each;
    await Promise.all(readers.map((reader) => reader.until(() => reader.events.length >= wanted)));
    const missed = readers.reduce((sum, { events }) => {
      const different = new Set(events.map(({ data }) => data.entryId)).size;
      return sum + Math.abs(wanted - different) + (events.length - different);
    }, 0);
    return {
      address,
      sent: load.length,
      errors,
      missed,
      idleP50Ms: quantile(idle, 0.5),
      idleP99Ms: quantile(idle, 0.99),
      p50Ms: quantile(load, 0.5),
      p99Ms: quantile(load, 0.99),
    };
  } finally {
    for (const reader of readers) reader.close();
    for (const agent of agents) agent.destroy();
    await server.stop();
  }
}

const until = (timeMs: number) =>
  new Promise<void>((resolve) => setTimeout(resolve, Math.max(0, timeMs - performance.now())));

function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}

function put(agent: Agent, url: string, token: string, body: unknown): Promise<number> {
  return new Promise((resolve, reject) => {
    const headers = { "content-type": "application/json", authorization: `Bearer ${token}` };
    const asked = request(url, { method: "PUT", agent, headers }, (response) => {
      response.resume().once("end", () => resolve(response.statusCode ?? 0));
    });
    asked.once("error", reject);
    asked.end(JSON.stringify(body));
  });
}
