import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // a busy machine takes its time; each wait ends as soon as there is what it waits for
    expect: { poll: { timeout: 20_000 } },
    maxWorkers: 2,
  },
});
