import { homedir } from "node:os";
import { posix, win32 } from "node:path";

export type Environment = Readonly<Record<string, string | undefined>>;

/** Where the platform keeps a user's own data; the logbook is never kept in the program's folder. */
export function userDataFolder(environment: Environment, platform: string): string {
  const home = homedir();
  if (platform === "win32") {
    return win32.join(environment.LOCALAPPDATA ?? win32.join(home, "AppData", "Local"), "Lapwater");
  }
  if (platform === "darwin") return posix.join(home, "Library", "Application Support", "Lapwater");
  const dataHome = environment.XDG_DATA_HOME;
  const absolute = dataHome !== undefined && posix.isAbsolute(dataHome);
  return posix.join(absolute ? dataHome : posix.join(home, ".local", "share"), "lapwater");
}
