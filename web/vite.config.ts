import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipAsync } from "@gfx/zopfli";
import { minify } from "terser";
import { defineConfig, type Plugin } from "vite";

/** A piece is fetched by the browser's own import: Vite's loader of styles beside it would weigh on the first load. */
const PRELOADER = "\0vite/preload-helper.js";
const plainImports: Plugin = {
  name: "plain-imports",
  enforce: "pre",
  load: (id) => (id === PRELOADER ? "export const __vitePreload = (fetchPiece) => fetchPiece();" : null),
};

/** Elements as calls with their children as arguments: they weigh less than objects that name them. */
const plainElements: Plugin = {
  name: "plain-elements",
  enforce: "pre",
  transform: (code, id) =>
    id.endsWith(".tsx") ? `import { h as element, Fragment as Elements } from "preact";\n${code}` : null,
};

/** Before Vite makes the scripts small its own way: each finds what the other leaves, two kilobytes of the first load together. */
const shortened: Plugin = {
  name: "shortened",
  renderChunk: async (code) => {
    const compress = { passes: 4, ecma: 2022, unsafe_arrows: true, inline: 1 } as const;
    return (await minify(code, { module: true, mangle: false, compress })).code;
  },
};

/** Each script and style lies packed beside itself, and the server sends it so: a phone fetches a third. */
const packed: Plugin = {
  name: "packed",
  writeBundle: async ({ dir = "" }, bundle) => {
    for (const name of Object.keys(bundle).filter((name) => /\.(js|css)$/.test(name))) {
      const file = join(dir, name);
      writeFileSync(`${file}.gz`, await gzipAsync(readFileSync(file), { numiterations: 15 }));
    }
  },
};

export default defineConfig({
  plugins: [plainImports, plainElements, shortened, packed],
  root: fileURLToPath(new URL(".", import.meta.url)),
  base: "./",
  oxc: { jsx: { runtime: "classic", pragma: "element", pragmaFrag: "Elements" } },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    // nothing is put into data: addresses, so that the server's content policy can be 'self' alone
    assetsInlineLimit: 0,
    modulePreload: false,
    target: "es2022",
    // one piece packs smaller than several that hand each other their names
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: { codeSplitting: { groups: [{ name: "first", test: /web\/main\.tsx$/ }] } },
    },
  },
  server: { proxy: { "/api": "http://127.0.0.1:4532" } },
});
