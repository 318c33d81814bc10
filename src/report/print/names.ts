import type { Assessment } from '../../clinical/assessment.js';
import type { Lexicon } from '../../findings/say.js';
import type { CaseRecord } from '../../record/schema/record.js';

/**
 * Names of devices and their parts. Two devices that would read alike carry their record key,
 * so that a sentence never leaves open which one is meant.
 */
export function nameDevices(record: CaseRecord, assessment: Assessment, words: Lexicon) {
  const keys = [...new Set([...Object.keys(record.devices ?? {}), ...assessment.devices.keys()])];
  const long = tellApart(new Map(keys.map(key => [key, longName(key)])), words);
  const short = tellApart(new Map(keys.map(key => [key, shortName(key)])), words);

  function longName(key: string): string {
    const name = assessment.devices.get(key)?.name;
    return name === undefined ? (record.devices?.[key]?.kind ?? key) : words.named(name);
  }

  /** `8.5 Fr drainage catheter`: enough for a sentence; the device table holds the rest. */
  function shortName(key: string): string {
    const details = assessment.devices.get(key);
    const entry = record.devices?.[key];
    const kind = details?.kind ?? entry?.kind ?? key;
    const across = details?.diameter ?? details?.size?.diameter ?? entry?.diameter ?? entry?.size?.diameter;
    return across ? `${words.quantity(across)} ${kind}` : kind;
  }

  const device = (key: string) => long.get(key) ?? key;
  const deviceShort = (key: string) => short.get(key) ?? key;
  const partKind = (key: string, part: string) => {
    const parts = record.devices?.[key]?.parts ?? {};
    const kind = parts[part]?.kind ?? part;
    const twins = Object.values(parts).filter(other => other.kind === kind).length;
    return twins > 1 ? words.say('name.key', { name: kind, key: part }) : kind;
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
  const seen = new Map<string, number>();
  for (const name of names.values()) seen.set(name, (seen.get(name) ?? 0) + 1);
  return new Map(
    [...names].map(([key, name]) => [
      key,
      (seen.get(name) ?? 0) > 1 ? words.say('name.key', { name, key }) : name,
    ]),
  );
}
