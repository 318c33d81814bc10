import { join } from 'node:path';

/**
 * Where the outbox lies: the folder given, else CASETALLY_DATA, else the platform's folder for a user's data
 * (XDG Base Directory on Linux, Application Support on macOS, LocalAppData on Windows).
 */
export function dataFolder(
  given: string | undefined,
  env: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform,
  home: string,
): string {
  if (given) return given;
  if (env['CASETALLY_DATA']) return env['CASETALLY_DATA'];
  switch (platform) {
    case 'win32':
      return join(env['LOCALAPPDATA'] || join(home, 'AppData', 'Local'), 'casetally');
    case 'darwin':
      return join(home, 'Library', 'Application Support', 'casetally');
    default:
      return join(absolute(env['XDG_DATA_HOME']) ?? join(home, '.local', 'share'), 'casetally');
  }
}

/** The XDG standard says that a relative path there counts as none. */
function absolute(path: string | undefined): string | undefined {
  return path?.startsWith('/') ? path : undefined;
}

/** The file of the outbox in the data folder. */
export function outboxFile(folder: string): string {
  return join(folder, 'outbox.db');
}
