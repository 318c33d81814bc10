import type { Assessment } from '../../clinical/assessment.js';
import { partNamed } from '../../devices/parts.js';
import type { Lexicon } from '../../findings/say.js';
import type { CaseRecord } from '../../record/schema/record.js';

/**
 * Names of devices and their parts. Two that would read alike are numbered in the order of the record, so that a
 * sentence never leaves open which one is meant. Keys of the record mean nothing to a reader and never stand in a name.
 */
export function nameDevices(record: CaseRecord, assessment: Assessment, words: Lexicon) {
  const keys = [...new Set([...Object.keys(record.devices ?? {}), ...assessment.devices.keys()])];
  const short = tellApart(new Map(keys.map(key => [key, shortName(key)])), words);

  /** `8.5 Fr drainage catheter`: enough for a sentence; the device table holds the rest. */
  function shortName(key: string): string {
    const details = assessment.devices.get(key);
    const entry = record.devices?.[key];
    const kind = words.kind(details?.kind ?? entry?.kind ?? key, details?.row);
    const across = details?.diameter ?? details?.size?.diameter ?? entry?.diameter ?? entry?.size?.diameter;
    return across ? words.sized(words.quantity(across), kind) : kind;
  }

  const device = (key: string) => {
    const called = assessment.devices.get(key)?.called;
    return called === undefined ? (record.devices?.[key]?.kind ?? key) : words.text(called);
  };
  const deviceShort = (key: string) => short.get(key) ?? key;
  const partKind = (key: string, part: string) => {
    const parts = record.devices?.[key]?.parts ?? {};
    const kind = parts[part]?.kind ?? part;
    const twins = Object.keys(parts).filter(other => parts[other]?.kind === kind);
    const name = words.text(partNamed(kind));
    return twins.length > 1 ? numbered(name, twins, part, words) : name;
  };
  return {
    device,
    deviceShort,
    partKind,
    /** The device, or its part: `retention thread of 8.5 Fr drainage catheter`. */
    piece: (key: string, part: string | undefined) =>
      part === undefined
        ? device(key)
        : words.say('name.part', { part: partKind(key, part), device: device(key) }),
    pieceShort: (key: string, part: string | undefined) =>
      part === undefined
        ? deviceShort(key)
        : words.say('name.part', { part: partKind(key, part), device: deviceShort(key) }),
  };
}

function tellApart(names: ReadonlyMap<string, string>, words: Lexicon): ReadonlyMap<string, string> {
  return new Map(
    [...names].map(([key, name]) => {
      const twins = [...names.keys()].filter(other => names.get(other) === name);
      return [key, twins.length > 1 ? numbered(name, twins, key, words) : name];
    }),
  );
}

const numbered = (name: string, twins: readonly string[], key: string, { say }: Lexicon) =>
  say('name.nth', { name, n: `${twins.indexOf(key) + 1}`, total: `${twins.length}` });
