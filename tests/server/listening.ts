import type { AddressInfo } from "node:net";
import { buildApp } from "../../server/app.ts";
import type { App } from "../../server/app-type.ts";
import type { Config } from "../../server/config.ts";
import { openStore, type Store } from "../../server/store/store.ts";

export interface Listening {
  app: App;
  store: Store;
  port: number;
  /** closes the server, then its store */
  close: () => Promise<void>;
}

/** The server on a real port, on a folder that may have been another's before; whoever opens it closes it. */
export async function listening(folder: string, config: Partial<Config> = {}, port = 0): Promise<Listening> {
  const store = openStore(folder);
  const whole: Config = {
    port,
    dataFolder: folder,
    lan: false,
    demonstration: false,
    hostsAllowed: [],
    tls: null,
    ...config,
  };
  const app = await buildApp(whole, store, { pages: `${folder}/none`, demonstration: `${folder}/none` });
  await app.listen({ port, host: whole.lan ? "0.0.0.0" : "127.0.0.1" });
  let closed = false;
  const close = async () => {
    if (closed) return;
    closed = true;
    await app.close();
    store.close();
  };
  return { app, store, port: (app.server.address() as AddressInfo).port, close };
}
