import { existsSync, readdirSync, readlinkSync } from 'node:fs';

/** The files below a folder that this process has open, where the system tells (Linux). */
export function openFiles(folder: string): string[] {
  const all = '/proc/self/fd';
  if (!existsSync(all)) return [];
  return readdirSync(all).flatMap(name => {
    try {
      const path = readlinkSync(`${all}/${name}`);
      return path.startsWith(folder) ? [path] : [];
    } catch {
      // It was closed meanwhile.
      return [];
    }
  });
}
