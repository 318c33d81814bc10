import { eventVerbs } from '../../../src/record/schema/devices.js';
import type { CaseRecord } from '../../../src/record/schema/record.js';
import type { PaperLine } from './paper.js';
import type { Leaf } from './resources.js';
import { wordsIn } from './words.js';

/** Leaves that say nothing of the case, or say again in code what a text beside them says: each with its reason. */
const notFacts: readonly (readonly [RegExp, string])[] = [
  [
    /\.(?:system|code|display|version|userSelected)$/,
    'the code of a concept whose text is the fact; codes have tests of their own',
  ],
  [
    /(?:^|\.)identifier\./,
    'numbers of systems; those of the record stand in the table of numbers, the rest are made by the software',
  ],
  [
    /(?:^|\.)(?:type|use|kind|mode|actuality|rank|intent|priority|entryType|issuer|jurisdiction|valueCode|valueBoolean)$/,
    'tells a machine how to read what stands beside it',
  ],
  [
    /^(?:status|clinicalStatus\.text|verificationStatus\.text|category\.text|category\.coding\.\w+|provision\.type|policyRule\.text|scope\.text)$/,
    'state of the resource, in words that its profile asks for',
  ],
  [/^extension\.|\.extension\./, 'extensions: version number and reasons of absence'],
  [
    /(?:^|\.)(?:property\.type|component\.code|code|method)\.text$/,
    'says what is measured or done: the paper has a label of its own for it',
  ],
  [/^contained\.(?:id|resourceType|ingredient\.isActive)$/, 'how a contained Medication is put together'],
  [/^section\./, 'titles of sections and lists of entries: the entries themselves are looked at'],
  [/^(?:masterIdentifier|content\.attachment)\./, 'number, size and language of the paper as a file'],
  [/focalDevice\.action\.text$/, 'implanted, explanted or manipulated: the end state on paper says it'],
];

/** Software that made the resources: not of the case. */
const notOfTheCase: ReadonlySet<string> = new Set(['Provenance']);

export function isFact(leaf: Leaf): boolean {
  // 2 % as 20 mg in 1 mL: the paper has a strength as it was written, which stands in the text of the dosage.
  if (leaf.quantity) return !/\.strength\.(?:numerator|denominator)\.value$/.test(leaf.path);
  return !notOfTheCase.has(leaf.type) && !notFacts.some(([path]) => path.test(leaf.path));
}

/** Short names of the record: the paper names the thing itself, and adds the short name only where two names are alike. */
function keysOf(record: CaseRecord): string[] {
  const keyed = [record.team, record.access, record.images, record.specimens, record.aftercare].flatMap(
    list => (Array.isArray(list) ? list.flatMap(({ key }: { key?: string | undefined }) => key ?? []) : []),
  );
  const devices = Object.entries(record.devices ?? {});
  const parts = devices.flatMap(([, device]) => Object.keys(device.parts ?? {}));
  return [...keyed, ...devices.map(([key]) => key), ...parts, ...Object.keys(record.targets ?? {})];
}

/** Words by which the resources say what the paper says with its own: each group with its reason. */
const resourceWords: readonly (readonly [string, string])[] = [
  [eventVerbs.join(' '), 'verbs of events; the paper has them in the past'],
  [
    'in situ temporary intended unintended unused opened unopened',
    'end states; a test of its own compares them device by device',
  ],
  ['depth mark every earliest action accepted', 'labels of notes; the paper has labels of its own'],
  [
    'decision support to be checked by a person',
    'the caution that goes with each figure; the paper says it once',
  ],
];

/** Words of resources that need no counterpart on paper. */
export function spare(record: CaseRecord): ReadonlySet<string> {
  const texts = [...keysOf(record), ...resourceWords.map(([words]) => words)];
  return new Set(texts.flatMap(text => wordsIn(text.toLowerCase())));
}

/** Leaves that the paper says otherwise or not: each with its reason. */
const explainedLeaves: readonly (readonly [(leaf: Leaf) => boolean, string])[] = [
  [
    ({ path }) => /(?:periodUnit|durationUnit|boundsDuration\.code)$/.test(path),
    'code of a unit of time; the paper has how often in words, which stand in the text beside it',
  ],
  [
    ({ type, path, quantity }) =>
      type === 'Observation' && path === 'valueQuantity.value' && quantity?.unit === 'cm',
    'body height, which the vital signs profile wants in cm; checked against its note and the paper below',
  ],
  [({ value }) => /^Written as [\d.]+ m$/.test(value), 'the note that holds the height as it was written'],
  [
    ({ type, path, value }) =>
      type === 'Device' && (/^(?:Software|Casetally)$/.test(value) || path === 'version.value'),
    'the software that made the resources',
  ],
  [({ path }) => path === 'udiCarrier.carrierAIDC', 'the label in base64; the paper prints it'],
  [
    ({ type, value }) => type === 'MedicationStatement' && value === 'Anticoagulant or antiplatelet drug',
    'what is not taken, where none is; the paper has it as the label',
  ],
  [
    ({ value }) => /^No (?:ionising radiation was used|figure recorded)$/.test(value),
    'none and not recorded in words; the paper has its own, compared below',
  ],
  [
    ({ path, value }) => path === 'statusReason.text' && value === 'Tried, and not achieved',
    'why a step was not done; the paper says "NOT crossed" in its sentence',
  ],
  [
    ({ value }) => /^Finding [\w.-]+ about /.test(value),
    'code and place of an accepted warning stand on paper after its message',
  ],
];

export const isExplained = (leaf: Leaf) => explainedLeaves.some(([is]) => is(leaf));

/** Lines of the paper that no resource holds: each with its reason. */
const explainedLines: readonly (readonly [
  (line: PaperLine, all: readonly PaperLine[]) => boolean,
  string,
])[] = [
  [
    ({ section, label }) => section === 'case' && label === 'Times',
    'name of the time zone; every time of the resources carries its offset',
  ],
  [
    ({ section, row }, all) =>
      section === 'worked' && all.some(other => other.row === row && other.text.startsWith('Not worked out')),
    'what was not worked out is no fact of the case',
  ],
  [
    ({ text }) => text === 'None known before the case',
    'none is in the document alone, and what the case showed outranks it',
  ],
  [
    ({ section, label }) => section === 'warnings' && label === 'Warning',
    'message of an accepted finding; its code, place and reason are in the resources',
  ],
  [
    ({ section, text }) => section === 'devices' && text.startsWith('Label ') && text.includes('\ufffd'),
    'a label as scanned, with a separator that no report can show; the resources have its bytes',
  ],
];

export const isExplainedLine = (line: PaperLine, all: readonly PaperLine[]) =>
  explainedLines.some(([is]) => is(line, all));
