import { type Message, message } from '../findings/message.js';
import { isNearest, suggest } from '../record/issues.js';
import { deviceFamilies } from '../record/schema/devices.js';
import type { DeviceKind, FrenchMeans } from '../trade/devices/kind.js';
import { deviceKinds, deviceTable, deviceWords } from '../trade/devices/table.js';
import { type Match, NameTable } from '../trade/names.js';
import type { DeviceFamily } from './types.js';

/** A kind that a site adds: its family is enough. */
export interface SiteKind {
  readonly name: string;
  readonly family: DeviceFamily;
  readonly implant?: boolean;
  readonly french?: FrenchMeans;
  readonly counted?: boolean;
  readonly outside?: boolean;
  readonly aliases?: readonly string[];
}

/** Finds a kind by a name of its row as people write it. The site's kinds come first. */
export function kindNamed(name: string, siteKinds: readonly SiteKind[] = []): Match<DeviceKind> | undefined {
  if (siteKinds.length === 0) return deviceTable.find(name);
  const own = siteTable(siteKinds).find(name);
  if (own?.how === 'listed') return own;
  const known = deviceTable.find(name);
  return known?.how === 'listed' ? known : (own ?? known);
}

const tables = new WeakMap<readonly SiteKind[], NameTable<DeviceKind>>();

function siteTable(siteKinds: readonly SiteKind[]): NameTable<DeviceKind> {
  const made = tables.get(siteKinds);
  if (made) return made;
  const rows = siteKinds.map(
    (kind): DeviceKind => ({ ...kindOfFamily(kind.name, kind.family), ...kind, aliases: kind.aliases ?? [] }),
  );
  const table = new NameTable(rows, deviceWords);
  tables.set(siteKinds, table);
  return table;
}

/** `Did you mean …?` for a kind that is not in the table; without a near one, the families to choose from. */
export function suggestKind(name: string, siteKinds: readonly SiteKind[] = []): Message {
  const near = suggest(name, [...siteKinds.map(kind => kind.name), ...deviceKinds.map(kind => kind.name)]);
  return isNearest(near) ? near : message('answer.addFamily', { families: deviceFamilies.join(', ') });
}

/** What to assume of a kind that nobody knows: nothing beyond its family. */
export function kindOfFamily(name: string, family: DeviceFamily): DeviceKind {
  const implant = family === 'stent' || family === 'filter' || family === 'embolic' || family === 'closure';
  const french = family === 'sheath' ? 'lumen' : 'outer';
  return { name, family, implant, french, counted: false, outside: false, traits: [], aliases: [] };
}
