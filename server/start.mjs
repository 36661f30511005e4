/** `npm start`: sets up what is missing, then becomes the server, in one process that signals reach. */
import { setUp } from "./setup.mjs";

if (await setUp({ web: true })) {
  const { register } = await import("tsx/esm/api");
  register();
  await import("./main.ts");
} else {
  process.exitCode = 1;
}
