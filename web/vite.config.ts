import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

export default defineConfig({
  root: fileURLToPath(new URL(".", import.meta.url)),
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    // nothing is put into data: addresses, so that the server's content policy can be 'self' alone
    assetsInlineLimit: 0,
    modulePreload: {
      polyfill: false,
      // the other rooms' own pieces are small, and their list would weigh on the Footplate's first load
      resolveDependencies: (_file, pieces, { hostType }) => (hostType === "html" ? pieces : []),
    },
    target: "es2022",
  },
  server: { proxy: { "/api": "http://127.0.0.1:4532" } },
});
