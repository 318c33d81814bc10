import { type Finding, finding } from '../../findings/finding.js';
import type { About, Contribution, GivenValue, Typed } from '../../intake/contribution.js';
import { deviceKey } from '../../intake/device-key.js';
import { fieldOf, isGroup, isList, type Plain, plainRecord } from '../../record/plain.js';
import type { Register } from '../../register/store/register.js';
import type { Use } from '../../register/use.js';
import type { Site } from '../../site/site.js';
import type { OpenedCase } from '../open-case.js';
import { factsOfCase } from '../register/take.js';
import { caseSystemOf } from '../settings.js';

/** What describes a device, whichever case it is in. How often, for what and how it was used belongs to the earlier one. */
const DESCRIBING = [
  'kind',
  'family',
  'description',
  'codes',
  'maker',
  'model',
  'reference',
  'size',
  'diameter',
  'length',
  'takesWire',
  'takes',
  'material',
  'mri',
  'label',
  'udi',
  'lot',
  'serial',
  'expires',
  'manufactured',
  'identifier',
  'parts',
];

/**
 * The devices that are still inside at the end of an earlier case, as carried in by the next. Fragments are told and not
 * taken: what they are is for a person to write.
 * @param at when the earlier record was read, ISO 8601 with offset
 */
export function earlierCaseContribution(
  opened: OpenedCase,
  site: Site,
  at: string,
): Contribution | undefined {
  const { record } = opened;
  const facts = factsOfCase(opened, site);
  if (!record || !facts) return undefined;
  const { system, value } = { system: caseSystemOf(site), value: record.case.id };
  const plain = fieldOf(plainRecord(record), 'devices');
  const keys = new Set<string>();
  const findings: Finding[] = [];
  const values = facts.devices.flatMap((fact): GivenValue[] => {
    if (fact.inside === 0) return [];
    const entry = plain !== undefined && isGroup(plain) ? fieldOf(plain, fact.device) : undefined;
    if (fact.part !== undefined || entry === undefined || !isGroup(entry)) {
      findings.push(partNotTaken(fact.part ?? fact.name));
      return [];
    }
    const kept = Object.entries(entry).filter(([name]) => DESCRIBING.includes(name));
    const before = fact.carried;
    const carried = {
      // Where it was placed, if that is known, and not where it was last seen.
      case: before
        ? before.case && { system: before.case.system, value: before.case.value }
        : { system, value },
      date: before ? before.date : fact.inOn,
      use: before?.use,
      site: fact.site,
      side: fact.side,
    };
    return fieldsOf(deviceKey(fact.kind, keys, 'earlier'), [
      ...kept.map(([name, text]): [string, Typed] => [name, typed(text)]),
      ...(fact.inside > 1 ? [['count', `${fact.inside}`] as [string, Typed]] : []),
      ['carried', present(carried)],
    ]);
  });
  const { name, birthDate, sex, identifiers } = record.patient;
  const about: About = {
    identifiers: identifiers.map(one => ({ system: one.system, value: one.value })),
    ...(name !== undefined && { name }),
    ...(birthDate && { birthDate: birthDate.iso.slice(0, 10) }),
    ...(sex !== undefined && { sex }),
  };
  return { from: 'earlier case', at, by: value, about, values, findings };
}

/**
 * What the register has inside a patient, each device with its name there, so that the next case is linked to it for
 * certain.
 * @param by the number that the patient was looked up with
 */
export function registerContribution(
  uses: readonly Use[],
  own: string,
  {
    number,
    at,
  }: { readonly number: { readonly system: string; readonly value: string }; readonly at: string },
): Contribution {
  const keys = new Set<string>();
  const findings: Finding[] = [];
  const values = uses
    .filter(({ state, inside }) => state === 'inside' && inside > 0)
    .flatMap((use): GivenValue[] => {
      if (use.part !== undefined) {
        findings.push(partNotTaken(use.part));
        return [];
      }
      const fields: Readonly<Record<string, string | undefined>> = {
        kind: use.kind,
        maker: use.maker,
        model: use.model,
        reference: use.reference,
        udi: use.di,
        lot: use.lot,
        serial: use.serial,
        expires: use.expires,
      };
      const carried = {
        use: use.id,
        ...placedIn(use, own),
        date: use.placed,
        site: use.site,
        side: use.side,
      };
      return fieldsOf(deviceKey(use.kind, keys, 'earlier'), [
        ...Object.entries(fields).flatMap(([name, text]): [string, Typed][] =>
          text === undefined ? [] : [[name, text]],
        ),
        ...(use.inside > 1 ? [['count', `${use.inside}`] as [string, Typed]] : []),
        ['carried', present(carried)],
      ]);
    });
  return { from: 'register', at, by: number.value, about: { identifiers: [number] }, values, findings };
}

/** A number of a patient as a source gives it; one without a system says of nobody who it is. */
export type GivenNumber = NonNullable<About['identifiers']>[number];

/**
 * What the register has inside the patient whom the first number that leads to one person names; undefined where none does.
 * @param own the system of case numbers of this site
 * @param at ISO 8601 with offset
 */
export async function insideContribution(
  register: Pick<Register, 'people' | 'usesOf'>,
  numbers: readonly GivenNumber[],
  own: string,
  at: string,
): Promise<{ readonly person: string; readonly contribution: Contribution } | undefined> {
  for (const { system, value } of numbers) {
    if (system === undefined) continue;
    const [person, another] = await register.people(value, system);
    if (!person || another) continue;
    const uses = await register.usesOf(person.id);
    return {
      person: person.id,
      contribution: registerContribution(uses, own, { number: { system, value }, at }),
    };
  }
  return undefined;
}

function placedIn({ events }: Use, own: string): { readonly case?: Typed } {
  const placing = events.find(({ kind }) => kind === 'inserted')?.case;
  if (placing === undefined) return {};
  const at = placing.lastIndexOf('|');
  return {
    case:
      at < 0
        ? { system: own, value: placing }
        : { system: placing.slice(0, at), value: placing.slice(at + 1) },
  };
}

const partNotTaken = (what: string): Finding =>
  finding('intake.not-taken', 'devices', { what, count: '1', why: 'a part on its own' });

const fieldsOf = (key: string, fields: readonly (readonly [string, Typed])[]): GivenValue[] =>
  fields.map(([name, value]) => ({ path: ['devices', key, name], value, as: 'set' }));

/** Only what is there. */
function present(fields: Readonly<Record<string, Typed | undefined>>): Typed {
  return Object.fromEntries(
    Object.entries(fields).filter((field): field is [string, Typed] => field[1] !== undefined),
  );
}

function typed(plain: Plain): Typed {
  if (typeof plain === 'string') return plain;
  if (isList(plain)) return plain.map(typed);
  return Object.fromEntries(Object.entries(plain).map(([name, value]) => [name, typed(value)]));
}
