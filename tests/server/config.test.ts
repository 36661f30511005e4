import { expect, test } from "vitest";
import { readConfig } from "../../server/config.ts";

const read = (...args: string[]) => readConfig(args, { XDG_DATA_HOME: "/data" }, "linux");

test("without options it is this machine alone, port 4532, and the user's own data folder", () => {
  expect(read()).toEqual({
    port: 4532,
    dataFolder: "/data/lapwater",
    lan: false,
    demonstration: true,
    hostsAllowed: [],
    tls: null,
  });
});

test("every option is read", () => {
  expect(
    read(
      "--port",
      "80",
      "--data",
      "here",
      "--lan",
      "--no-demo",
      "--host-allowed",
      "Shed",
      "--host-allowed=b",
    ),
  ).toEqual({
    port: 80,
    dataFolder: "here",
    lan: true,
    demonstration: false,
    hostsAllowed: ["shed", "b"],
    tls: null,
  });
});

test("each platform has its own place for a user's data", () => {
  const folder = (environment: Record<string, string>, platform: string) =>
    readConfig([], environment, platform).dataFolder;
  expect(folder({}, "linux")).toMatch(/\/\.local\/share\/lapwater$/);
  expect(folder({ XDG_DATA_HOME: "not/absolute" }, "linux")).toMatch(/\/\.local\/share\/lapwater$/);
  expect(folder({}, "darwin")).toMatch(/\/Library\/Application Support\/Lapwater$/);
  expect(folder({ LOCALAPPDATA: "C:\\Users\\x\\AppData\\Local" }, "win32")).toBe(
    "C:\\Users\\x\\AppData\\Local\\Lapwater",
  );
});

test.each([
  [["--colour"], "--colour"],
  [["4532"], "4532"],
  [["--port"], "--port"],
  [["--port", "steam"], '--port: came "steam"'],
  [["--port", "65536"], '--port: came "65536"'],
  [["--port", "-1"], "--port"],
  [["--port", "1e3"], "--port"],
  [["--lan=yes"], "--lan"],
])("%j is refused in one line that names it", (args, named) => {
  let message = "";
  try {
    read(...args);
  } catch (error) {
    message = error instanceof Error ? error.message : "";
  }
  expect(message).toContain(named);
  expect(message).not.toContain("\n");
});
