import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { exampleFiles, exampleName } from '../tests/support/examples.js';

const root = new URL('../', import.meta.url);
const read = (path: string): Record<string, unknown> => parse(readFileSync(new URL(path, root), 'utf8'));

/** A record to be looked at: what a file of it holds. */
export interface LookCase {
  readonly name: string;
  readonly record: Readonly<Record<string, unknown>>;
}

/** Every example, and four cases that are hard to lay out. */
export function lookCases(): LookCase[] {
  const examples = exampleFiles.map(file => ({
    name: exampleName(file),
    record: read(`examples/${file}`),
  }));
  return [
    ...examples,
    { name: 'hard-bilateral', record: read('tests/plants/cases/iliac-kissing-stents.yaml') },
    { name: 'hard-death', record: read('tests/plants/cases/death-in-case.yaml') },
    { name: 'hard-long-names', record: longNames() },
    { name: 'hard-many-devices', record: manyDevices() },
  ];
}

/** Names as long as people have them, of persons, departments and devices. */
function longNames(): LookCase['record'] {
  const record = read('examples/abscess-drain.yaml');
  const patient = record['patient'] as Record<string, unknown>;
  const team = record['team'] as Record<string, unknown>[];
  const devices = record['devices'] as Record<string, Record<string, unknown>>;
  return {
    ...record,
    patient: {
      ...patient,
      name: 'Wilhelmina-Anneliese Featherstonehaugh-Oyelaran von und zu Hohenbrackwassermoor',
    },
    team: team.map(one => ({
      ...one,
      name: `${String(one['name'])} Papadimitrakopoulou-Wolfeschlegelsteinhausen`,
      organization:
        'Department of Interventional and Paediatric Radiology, Northern Archipelago Teaching Hospitals Group',
    })),
    devices: Object.fromEntries(
      Object.entries(devices).map(([key, one], n) => [
        key,
        {
          ...one,
          model: `${String(one['model'] ?? 'Model')} Superlongnamedhydrophilicreinforcedcatheter-${n}/XXL-0123456789`,
        },
      ]),
    ),
  };
}

/** Sixty wires more, opened and not used. */
function manyDevices(): LookCase['record'] {
  const record = read('examples/abscess-drain.yaml');
  const devices = record['devices'] as Record<string, Record<string, unknown>>;
  const more = Array.from({ length: 60 }, (_, n) => [
    `spare-${n + 1}`,
    { kind: 'guidewire', size: '0.035 in', length: '150 cm', lot: `L${1000 + n}`, use: 'opened unused' },
  ]);
  return { ...record, devices: { ...devices, ...Object.fromEntries(more) } };
}
