import type { Communication, Device, Flag, Identifier, Narrative } from 'fhir/r4.js';
import { caseUuid } from '../fhir/ids.js';
import { divOf } from '../fhir/xhtml.js';
import { grouped } from '../record/grouped.js';
import type { PersonNumber } from './facts.js';
import type { RecallHit } from './store/register.js';

/** A device of a person that lines of a recall meet, however many. */
export interface Affected {
  readonly hit: RecallHit;
  readonly lines: readonly number[];
  /** Numbers of the person. */
  readonly numbers: readonly PersonNumber[];
}

/** Drafts about one device of one person: nothing in them is active or sent. */
export interface RecallDraft {
  /** Only where the device is inside, or may be. */
  readonly flag?: Flag;
  readonly communication: Communication;
}

/** What is surest of a device: an answer that holds by one line holds. */
const SURENESS: readonly RecallHit['answer'][] = ['carries now', 'carried', 'perhaps'];

/** Each device of each person once, in the order of the first line that meets it. */
export function affectedBy(
  hits: readonly RecallHit[],
  numbersOf: (person: string) => readonly PersonNumber[],
): Affected[] {
  return [...grouped(hits, ({ use }) => JSON.stringify([use.person, use.id])).values()].flatMap(all => {
    const [hit] = all.toSorted((a, b) => SURENESS.indexOf(a.answer) - SURENESS.indexOf(b.answer));
    return hit ? [{ hit, lines: all.map(({ line }) => line), numbers: numbersOf(hit.use.person) }] : [];
  });
}

/** How an answer is said to who contacts patients. */
export const answerText: Readonly<Record<RecallHit['answer'], string>> = {
  'carries now': 'carries now',
  carried: 'carried',
  perhaps: 'cannot be excluded',
};

/** Stands first in every draft. */
export const DRAFT = 'DRAFT, not sent: a person decides whether, whom and how to tell.';

/**
 * Drafts of a Flag and a Communication in FHIR R4. The flag is inactive and the communication in preparation, without
 * anybody who sends or receives it, so that no system takes either for something decided.
 *
 * @param namespace of the site: the same recall gives the same ids
 */
export function recallDraft({ hit, numbers, lines }: Affected, namespace: string): RecallDraft {
  const { use, answer } = hit;
  const [number] = numbers;
  const identifier: Identifier | undefined = number && {
    ...(number.system !== '' && { system: number.system }),
    value: number.value,
  };
  const subject = { type: 'Patient', ...(identifier ? { identifier } : { display: 'Number not known' }) };
  const about = JSON.stringify([use.person, use.id]);
  const said = `${DRAFT} Device recall: the patient ${SAID[answer]} (${use.name}, ${use.id}; line ${lines.join(', ')} of the recall).`;
  const unknown = hit.unknown.length > 0 ? ` Not known of it: ${hit.unknown.join(', ')}.` : '';
  const text: Narrative = { status: 'generated', div: divOf([`${said}${unknown}`]) };
  const communication: Communication = {
    resourceType: 'Communication',
    id: caseUuid(namespace, about, 'recall communication'),
    text,
    contained: [deviceOf(hit)],
    status: 'preparation',
    statusReason: { text: DRAFT },
    category: [{ coding: [{ system: CATEGORY, code: 'alert', display: 'Alert' }] }],
    subject,
    about: [{ reference: '#device' }],
    payload: [{ contentString: `${said}${unknown}` }],
  };
  if (answer === 'carried') return { communication };
  const flag: Flag = {
    resourceType: 'Flag',
    id: caseUuid(namespace, about, 'recall flag'),
    text,
    status: 'inactive',
    category: [{ coding: [{ system: FLAG_CATEGORY, code: 'safety', display: 'Safety' }] }],
    code: { text: `${said}${unknown}` },
    subject,
  };
  return { flag, communication };
}

const CATEGORY = 'http://terminology.hl7.org/CodeSystem/communication-category';
const FLAG_CATEGORY = 'http://terminology.hl7.org/CodeSystem/flag-category';

const SAID: Readonly<Record<RecallHit['answer'], string>> = {
  'carries now': 'carries a device that it names',
  carried: 'carried a device that it names, which is out',
  perhaps: 'has a device that cannot be excluded',
};

function deviceOf({ use }: RecallHit): Device {
  return {
    resourceType: 'Device',
    id: 'device',
    ...(use.di !== undefined && { udiCarrier: [{ deviceIdentifier: use.di, entryType: 'manual' }] }),
    ...(use.expires !== undefined && { expirationDate: use.expires }),
    ...(use.lot !== undefined && { lotNumber: use.lot }),
    ...(use.serial !== undefined && { serialNumber: use.serial }),
    deviceName: [{ name: use.name, type: 'user-friendly-name' }],
  };
}
