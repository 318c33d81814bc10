import { posix } from 'node:path';
import { expect, it } from 'vitest';
import { dataFolder, outboxFile } from '../../../src/delivery/outbox/place.js';

/*
 * XDG Base Directory, https://specifications.freedesktop.org/basedir-spec/latest/ ; the folders of macOS and Windows
 * are their makers': Application Support, and the known folder LocalAppData.
 */
it.each<[given: string | undefined, env: Record<string, string>, platform: NodeJS.Platform, folder: string]>([
  ['/given', { CASETALLY_DATA: '/env' }, 'linux', '/given'],
  [undefined, { CASETALLY_DATA: '/env', XDG_DATA_HOME: '/xdg' }, 'linux', '/env'],
  ['', { CASETALLY_DATA: '' }, 'linux', '/home/u/.local/share/casetally'],
  [undefined, { XDG_DATA_HOME: '/xdg' }, 'linux', '/xdg/casetally'],
  [undefined, { XDG_DATA_HOME: 'not/absolute/' }, 'linux', '/home/u/.local/share/casetally'],
  [undefined, { XDG_DATA_HOME: '' }, 'freebsd', '/home/u/.local/share/casetally'],
  [undefined, { XDG_DATA_HOME: '/xdg' }, 'darwin', '/home/u/Library/Application Support/casetally'],
  [undefined, { XDG_DATA_HOME: '/xdg' }, 'win32', '/home/u/AppData/Local/casetally'],
  [undefined, { LOCALAPPDATA: '/local' }, 'win32', '/local/casetally'],
  [undefined, { LOCALAPPDATA: '' }, 'win32', '/home/u/AppData/Local/casetally'],
  [undefined, { LOCALAPPDATA: '/local' }, 'darwin', '/home/u/Library/Application Support/casetally'],
])('given %j and %j on %s, the outbox lies in %s', (given, env, platform, folder) => {
  expect(dataFolder(given, env, platform, '/home/u')).toBe(folder);
  expect(outboxFile(folder)).toBe(posix.join(folder, 'outbox.db'));
});
