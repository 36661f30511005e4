/**
 * `npm start`: sets up what is missing, then becomes the server. It is one process, so that a signal sent to
 * npm reaches the server and nothing is left running behind it.
 */
import { setUp } from "./setup.mjs";

if (await setUp({ web: true })) {
  const { register } = await import("tsx/esm/api");
  register();
  await import("./main.ts");
} else {
  process.exitCode = 1;
}
