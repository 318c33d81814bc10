import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { entriesOf } from '../../record/entries.js';
import { remembered } from '../../record/remembered.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { canBe, type ToldDevice, toldDevices } from '../../trade/devices/told.js';
import { clausesOf, isTold, reasonTexts, toldTexts } from './texts.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

/** Devices that texts name and the list does not have; silent where a record lists no devices at all. */
export function checkToldDevices(record: CaseRecord, devices: Devices): Finding[] {
  if (devices.size === 0 || record.case.status === 'not done') return [];
  const isListed = listedIn(record, devices);
  const unlisted = toldDevices.filter(told => !isListed(told));
  const found: Finding[] = [];
  const said = new Set<string>();
  const say = (
    code: 'clinical.complication-device' | 'clinical.device-unlisted',
    path: string,
    text: string,
    told: ToldDevice,
  ) => {
    const device = said.has(told.name) ? undefined : namedIn(text).get(told);
    if (device === undefined) return;
    said.add(told.name);
    found.push(finding(code, path, { text, device }));
  };
  const inComplications = entriesOf(record.complications).map(
    ({ what }, i) => [`complications[${i}].what`, what.text] as const,
  );
  for (const [path, text] of inComplications)
    for (const told of unlisted) say('clinical.complication-device', path, text, told);
  const texts = [
    ...toldTexts(record).map(({ path, text }) => [path, text] as const),
    ...entriesOf(record.left).map(({ site }, i) => [`left[${i}].site`, site?.text ?? ''] as const),
    ...entriesOf(record.complications).map(
      ({ action }, i) => [`complications[${i}].action`, action ?? ''] as const,
    ),
  ];
  for (const [path, text] of texts)
    for (const told of unlisted) say('clinical.device-unlisted', path, text, told);
  return found;
}

/** The devices that a text names as there, each with its word. */
const namedIn = remembered(
  (text): ReadonlyMap<ToldDevice, string> =>
    new Map(
      toldDevices.flatMap(told => {
        const word = nameIn(text, told);
        return word === undefined ? [] : [[told, word] as const];
      }),
    ),
);

/** The word by which a text names it as there. */
function nameIn(text: string, { words }: ToldDevice): string | undefined {
  for (const clause of clausesOf(text))
    for (const match of clause.matchAll(words)) {
      // The last word is the thing; what stands before it may say 'earlier' or 'no'.
      const place = match[0].lastIndexOf(' ') + 1;
      if (isTold(clause, match.index + place, match[0].length - place)) return match[0];
    }
  return undefined;
}

/** Which devices are listed as a device or a part of one, injected as an agent, or there before the case. */
function listedIn(record: CaseRecord, devices: Devices): (told: ToldDevice) => boolean {
  const listed = [...devices.values()].map(({ kind, row, description, family, entry }) => {
    const parts = Object.values(entry.parts ?? {}).map(part => part.kind);
    const names = [
      kind,
      row ?? '',
      description ?? '',
      entry.model ?? '',
      entry.carried?.note ?? '',
      ...parts,
    ];
    return { family, names: names.filter(name => name !== '') };
  });
  const given = [
    ...(record.events ?? []).map(({ agent }) => agent ?? ''),
    ...entriesOf(record.drugs).map(({ drug }) => drug.text),
  ];
  // A title that names what is not listed has a finding of its own.
  const named = [reasonTexts(record), record.case.kind, record.case.procedure?.text ?? ''].join('\n');
  return told =>
    listed.some(({ family, names }) => names.some(name => canBe(told, name, family))) ||
    given.some(text => told.listed.test(text)) ||
    named.search(told.words) >= 0;
}
