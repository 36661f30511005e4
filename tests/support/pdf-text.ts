import { inflateSync } from "node:zlib";

/** What a PDF made by the browser says about itself: enough of the format (ISO 32000-1) to read its words. */
export interface ReadPdf {
  pages: number;
  /** all that can be selected as text, in the order in which it is drawn, without spaces */
  letters: string;
  /** bitmaps drawn on its pages */
  images: number;
}

export function readPdf(file: Buffer): ReadPdf {
  const objects = objectsOf(file);
  const values = [...objects.values()];
  const pages = values.filter((one) => /\/Type\s*\/Page\b/.test(one.head));
  const letters = pages
    .flatMap((page) => {
      const fonts = fontsOf(page.head, objects);
      return references(page.head, "Contents").map((id) => lettersOf(objects.get(id)?.stream ?? "", fonts));
    })
    .join("");
  const images = values.filter((one) => /\/Subtype\s*\/Image\b/.test(one.head)).length;
  return { pages: pages.length, letters, images };
}

interface PdfObject {
  head: string;
  stream: string | null;
}

function objectsOf(file: Buffer): Map<string, PdfObject> {
  const text = file.toString("latin1");
  const objects = new Map<string, PdfObject>();
  for (const found of text.matchAll(/(?:^|\n)(\d+) 0 obj\s([\s\S]*?)endobj/g)) {
    const [, id = "", body = ""] = found;
    const start = /stream\r?\n/.exec(body);
    const head = start === null ? body : body.slice(0, start.index);
    const length = Number(/\/Length (\d+)/.exec(head)?.[1] ?? 0);
    const from = start === null ? 0 : start.index + start[0].length;
    const raw = start === null ? null : Buffer.from(body.slice(from, from + length), "latin1");
    const packed = raw !== null && head.includes("/FlateDecode") && !head.includes("/Image");
    objects.set(id, {
      head,
      stream: raw === null ? null : (packed ? inflateSync(raw) : raw).toString("latin1"),
    });
  }
  return objects;
}

function references(head: string, name: string): string[] {
  const listed = new RegExp(`/${name}\\s*(\\[[^\\]]*\\]|\\d+ 0 R)`).exec(head)?.[1] ?? "";
  return [...listed.matchAll(/(\d+) 0 R/g)].map((found) => found[1] ?? "");
}

type Font = Map<string, string>;

/** Fonts by the name that the page's drawing calls them, each with what its codes stand for. */
function fontsOf(page: string, objects: Map<string, PdfObject>): Map<string, Font> {
  const [indirect] = references(page, "Resources");
  const resources = indirect === undefined ? page : (objects.get(indirect)?.head ?? "");
  const listed = /\/Font\s*<<([\s\S]*?)>>/.exec(resources)?.[1] ?? "";
  return new Map(
    [...listed.matchAll(/\/(\S+) (\d+) 0 R/g)].map(([, name = "", id = ""]) => {
      const [map] = references(objects.get(id)?.head ?? "", "ToUnicode");
      return [name, codesOf(map === undefined ? "" : (objects.get(map)?.stream ?? ""))];
    }),
  );
}

function codesOf(map: string): Font {
  const font: Font = new Map();
  const letter = (hex: string) => Buffer.from(hex, "hex").swap16().toString("utf16le");
  for (const [, block = ""] of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, code = "", to = ""] of block.matchAll(/<(\w+)>\s*<(\w+)>/g))
      font.set(code.toUpperCase(), letter(to));
  }
  for (const [, block = ""] of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from = "", to = "", first = ""] of block.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g)) {
      for (let i = 0; i <= Number.parseInt(to, 16) - Number.parseInt(from, 16); i++) {
        const code = (Number.parseInt(from, 16) + i).toString(16).toUpperCase().padStart(from.length, "0");
        font.set(code, String.fromCharCode(Number.parseInt(first, 16) + i));
      }
    }
  }
  return font;
}

function lettersOf(drawing: string, fonts: Map<string, Font>): string {
  let font: Font = new Map();
  let letters = "";
  for (const [whole, name, hex] of drawing.matchAll(
    /\/(\S+) [\d.]+ Tf|<([0-9A-Fa-f]+)>(?=[^<>]*T[jJ])|\((?:\\.|[^\\)])*\)(?=[^()]*T[jJ])/g,
  )) {
    if (name !== undefined) font = fonts.get(name) ?? new Map();
    else {
      const codes = hex ?? bytesOf(whole.slice(1, -1));
      const size = [...font.keys()][0]?.length ?? 4;
      for (let i = 0; i < codes.length; i += size)
        letters += font.get(codes.slice(i, i + size).toUpperCase()) ?? "";
    }
  }
  return letters.replace(/\s+/g, "");
}

const ESCAPES: Record<string, string> = { n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" };

function bytesOf(literal: string): string {
  const plain = literal.replace(/\\(\d{1,3}|.)/gs, (_, escaped: string) =>
    /^\d/.test(escaped) ? String.fromCharCode(Number.parseInt(escaped, 8)) : (ESCAPES[escaped] ?? escaped),
  );
  return Buffer.from(plain, "latin1").toString("hex");
}
