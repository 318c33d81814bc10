import { stringify } from 'yaml';
import { type Group, group, list, pick, type Tree } from './data.js';

/* What other systems know of a case before it begins, made from an example: an order and a catalogue. */

const text = (data: Tree | undefined) => `${(group(data)['text'] as string | undefined) ?? (data as string)}`;

const UNITS: Readonly<Record<string, string>> = {
  'x10^9/L': '10*9/L',
  '×10⁹/L': '10*9/L',
  'µmol/L': 'umol/L',
};

/** The order of a case at a FHIR server, with what it refers to; laboratory values are of this morning. */
export function orderOf(record: Group, id: string, now: Date): readonly object[] {
  const [patient, about] = [group(record['patient']), group(record['case'])];
  const [first = {}] = list(patient['identifiers']);
  const subject = { reference: `Patient/${id}` };
  const name = `${patient['name']}`.split(' ');
  const referrer = list(record['team']).find(one => one['role'] === 'referrer') ?? {};
  const morning = new Date(now.getTime() - 4 * 3_600_000).toISOString();
  const quantity = (value: Tree | undefined) => {
    const [number = '', ...unit] = `${value}`.split(' ');
    return {
      value: Number(number),
      ...(unit.length > 0 && { unit: UNITS[unit.join(' ')] ?? unit.join(' ') }),
    };
  };
  const observed = (key: string, code: object, value: Tree | undefined, category?: object) => ({
    ...{
      resourceType: 'Observation',
      id: `${id}-${key}`,
      status: 'final',
      code,
      subject,
      effectiveDateTime: morning,
    },
    ...(category && { category: [category] }),
    valueQuantity: quantity(value),
  });
  const loinc = (code: string) => ({ coding: [{ system: 'http://loinc.org', code }] });
  const laboratory = {
    coding: [{ system: 'http://terminology.hl7.org/CodeSystem/observation-category', code: 'laboratory' }],
  };
  // The last of each.
  const labs = [...new Map(list(group(record['before'])['labs']).map(lab => [lab['what'], lab])).values()];
  const inside = Object.entries(group(record['devices'])).filter(
    ([, one]) => group(one)['carried'] !== undefined,
  );
  return [
    ...inside.flatMap(([key, one]) => {
      const carried = group(group(one)['carried']);
      return [
        {
          resourceType: 'Device',
          id: `${id}-${key}`,
          status: 'active',
          type: { text: group(one)['kind'] },
          patient: subject,
        },
        {
          ...{ resourceType: 'DeviceUseStatement', id: `${id}-${key}-use`, status: 'active', subject },
          device: { reference: `Device/${id}-${key}` },
          timingPeriod: { start: carried['date'] },
          bodySite: { text: carried['site'] },
        },
      ];
    }),
    {
      ...{
        resourceType: 'Patient',
        id,
        identifier: [first],
        birthDate: patient['birthDate'],
        gender: patient['sex'],
      },
      name: [{ use: 'official', family: name.slice(1).join(' '), given: name.slice(0, 1) }],
    },
    { resourceType: 'Practitioner', id: `${id}-referrer`, name: [{ text: referrer['name'] }] },
    {
      ...{
        resourceType: 'Encounter',
        id: `${id}-stay`,
        status: 'in-progress',
        subject,
        identifier: [about['encounter']],
      },
      class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'IMP' },
    },
    {
      ...{ resourceType: 'ServiceRequest', id: `${id}-order`, status: 'active', intent: 'order', subject },
      priority: about['urgency'] === 'elective' ? 'routine' : 'urgent',
      identifier: [about['order']],
      code: { text: text(record['planned']) },
      encounter: { reference: `Encounter/${id}-stay` },
      requester: { reference: `Practitioner/${id}-referrer` },
      reasonCode: [{ text: text(record['indication']) }],
    },
    ...labs.map((lab, n) => observed(`lab${n}`, { text: lab['what'] }, lab['value'], laboratory)),
    // LOINC 29463-7 body weight, 8302-2 body height: the vital signs profiles of FHIR R4.
    observed('weight', loinc('29463-7'), patient['weight']),
    ...(patient['height'] === undefined ? [] : [observed('height', loinc('8302-2'), patient['height'])]),
  ];
}

/** Lines of the device catalogue of a site for what a case used. */
export function catalogueOf(records: readonly Group[]): string {
  const rows = new Map<string, readonly string[]>();
  for (const record of records)
    for (const device of Object.values(group(record['devices'])).map(group)) {
      const di =
        /^\(01\)(\d{14})/.exec(`${device['label'] ?? ''}`)?.[1] ??
        (device['udi'] as string | undefined)?.padStart(14, '0');
      const label = `${device['label'] ?? ''}`;
      const key = di ?? (label.startsWith('+') ? label.slice(1).split('/')[0] : undefined);
      const said = (name: string) => (device[name] === undefined ? '' : text(device[name]));
      if (key === undefined) continue;
      const sizes =
        `${said('size')}`.split(' x ').join('|') ||
        [said('diameter'), said('length')].filter(one => one !== '').join('|');
      rows.set(key, [
        key,
        said('kind'),
        said('description'),
        said('maker'),
        said('reference'),
        sizes,
        said('implant') && 'yes',
      ]);
    }
  const cell = (one: string) => (/[",]/.test(one) ? `"${one.replaceAll('"', '""')}"` : one);
  return [
    'di,kind,description,maker,reference,sizes,implant',
    ...[...rows.values()].map(row => row.map(cell).join(',')),
  ].join('\n');
}

/** The kit of the department for cases like one: what stays in them, how it is set, and the usual aftercare. */
export function kitOf(record: Group, name: string): string {
  const stays = Array.isArray(record['left']) ? list(record['left']) : [];
  const usual = list(record['aftercare']).map(one => pick(one, 'do', 'device', 'every', 'by'));
  const named = new Set(
    [...stays, ...usual].flatMap(one => (one['device'] === undefined ? [] : [`${one['device']}`])),
  );
  const devices = Object.entries(group(record['devices'])).filter(([key]) => named.has(key));
  return stringify({
    casetallyKit: '1',
    name,
    devices: Object.fromEntries(devices.map(([key, one]) => [key, pick(one, 'kind', 'parts')])),
    aftercare: usual,
    left: stays.map(one => pick(one, 'device', 'purpose', 'site', 'set', 'fixedBy', 'until', 'latest')),
  });
}

/** A case of the same morning, of which nothing but the team is known. */
export const caseBefore = (record: Group): string =>
  stringify({ casetally: '1', case: { id: 'FIRST-OF-THE-DAY' }, team: record['team'] });
