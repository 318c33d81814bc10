import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { RegistryOptions } from '../options.js';

/** What of a device may be named to a registry. */
export interface AllowedDetails {
  readonly di?: string;
  readonly maker?: string;
  readonly model?: string;
  readonly reference?: string;
  readonly lot?: string;
  readonly serial?: string;
}

const parts = [
  'maker',
  'model',
  'reference',
  'lot',
  'serial',
  'di',
] as const satisfies readonly (keyof AllowedDetails)[];
type Part = (typeof parts)[number];

/**
 * What of a device may be named. Whatever a person types may hold a name: maker, model and catalogue number go only
 * where the catalogue or the settings have them too, and then as they stand there; identifier, lot and serial
 * number only where they look like one; and nothing that is a name or a number of the case.
 *
 * @param isPersonal of the case: see `personalIn`
 * @returns the details, and a finding for each that was kept back
 */
export function allowedDetails(
  isPersonal: (text: string) => boolean,
  details: DeviceDetails,
  { allowed, lots, serials }: Pick<RegistryOptions, 'allowed' | 'lots' | 'serials'>,
): { readonly details: AllowedDetails; readonly findings: Finding[] } {
  const wanted = parts.filter(
    part =>
      details[part] !== undefined &&
      !(part === 'lot' && lots === 'leave out') &&
      !(part === 'serial' && serials !== 'keep'),
  );
  const may: AllowedDetails = {
    ...only('di', numberOf(details.di)),
    ...only('maker', listed(details.maker, [details.listed?.maker, ...allowed.makers])),
    ...only('model', listed(details.model, allowed.models)),
    ...only('reference', listed(details.reference, [details.listed?.reference, ...allowed.references])),
    ...only('lot', numberOf(details.lot)),
    ...only('serial', numberOf(details.serial)),
  };
  const sent = wanted.filter(part => may[part] !== undefined && !isPersonal(may[part]));
  return {
    details: Object.fromEntries(sent.map(part => [part, may[part]])),
    findings: wanted
      .filter(part => !sent.includes(part))
      .map(part => {
        const field = part === 'di' ? 'udi' : part;
        return finding('registry.withheld', `devices.${details.key}.${field}`, {
          device: details.key,
          field,
        });
      }),
  };
}

function only(part: Part, value: string | undefined): AllowedDetails {
  return value === undefined ? {} : { [part]: value };
}

const plain = (text: string) => text.normalize('NFKC').toLowerCase().replaceAll(/\s+/g, ' ').trim();

/** The entry of a list that a typed text is, spelling aside. */
function listed(typed: string | undefined, list: readonly (string | undefined)[]): string | undefined {
  return typed === undefined ? undefined : list.find(one => one !== undefined && plain(one) === plain(typed));
}

const numberOf = (value: string | undefined): string | undefined =>
  value !== undefined && looksLikeNumber(value) ? value : undefined;

/**
 * No blanks, at least one digit, no run of small letters such as words have, and otherwise what a label may carry (GS1
 * General Specifications, character set 82). What was read from a label is judged too: its text may have been typed.
 */
const looksLikeNumber = (text: string): boolean =>
  /^[!"%&'()*+,./:;<=>?\w-]{1,40}$/.test(text) && /\d/.test(text) && !/[a-z]{4}/.test(text);

const wordsOf = (text: string): string[] => plain(text).match(/[\p{L}\p{N}]+/gu) ?? [];

/** Whether a text has a word of somebody's name in it, or a number of the patient or the case. */
export function personalIn(record: CaseRecord): (text: string) => boolean {
  const people = [record.patient.name, ...record.team.map(({ name }) => name)];
  const names = new Set(
    people.flatMap(name => wordsOf(name ?? '')).filter(word => word.length > 2 && !/^\d+$/.test(word)),
  );
  const numbers = [
    record.case.id,
    record.case.accession,
    record.case.order?.value,
    record.case.encounter?.value,
    ...record.patient.identifiers.map(({ value }) => value),
  ].flatMap(number => (number === undefined || number.length < 4 ? [] : [plain(number)]));
  return text =>
    wordsOf(text).some(word => names.has(word)) || numbers.some(number => plain(text).includes(number));
}
