import type { When } from '../../record/time.js';
import type { Printer } from '../print/printer.js';
import { absent, detail, fact, facts, said, section, table } from './blocks.js';
import type { Fact, Identity, Section } from './model.js';

/** Title of the report: what was done, in the record's own words. */
export function titleOf(p: Printer): string {
  const { record } = p;
  const words = p.caseKind(record.case.procedure?.text ?? record.case.kind);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export function identityOf(p: Printer): Identity {
  const { patient } = p.record;
  const missing = p.say('absent.notRecorded');
  const name = patient.name ?? missing;
  const birthDate = patient.birthDate ? bornOn(p, patient.birthDate) : missing;
  return {
    name,
    birthDate,
    sex: patient.sex ? p.say(`sex.${patient.sex}`) : missing,
    identifiers: p.list(patient.identifiers.map(id => id.value)),
    line: patient.birthDate
      ? p.say('page.person', { name, birthDate })
      : p.say('page.personUnborn', { name }),
  };
}

/** A weekday says nothing of a person; a newborn may have a time. */
const bornOn = (p: Printer, birth: When) => (birth.moment ? p.when(birth) : p.plainDate(birth.iso));

/** `Completed`, or `Stopped early: no route`. */
export function caseStatus(p: Printer): Fact {
  const { status, reason } = p.record.case;
  const state = p.say(`caseStatus.${status}`);
  return fact(p, 'caseStatus', said(reason ? p.say('field', { label: state, value: reason.text }) : state));
}

export function procedure(p: Printer): Fact {
  return fact(p, 'procedure', said(titleOf(p)));
}

export function dateOfCase(p: Printer): Fact {
  return fact(p, 'date', said(p.date(p.record.case.date)));
}

/** Sides of the targets; of the ways in only where there is no target: a right-sided access says nothing of a middle one. */
export function side(p: Printer): Fact {
  const targets = Object.values(p.record.targets ?? {});
  const sides = (targets.length > 0 ? targets : (p.record.access ?? [])).flatMap(({ side }) => side ?? []);
  const words = [...new Set(sides)].map(value => p.say(`side.${value}`));
  return fact(p, 'side', words.length > 0 ? said(p.list(words)) : absent(p));
}

/** The facts that every report starts with. */
export function identityFacts(p: Printer) {
  const { patient } = p.record;
  const who = identityOf(p);
  return {
    name: fact(p, 'name', patient.name === undefined ? absent(p) : said(who.name)),
    birthDate: fact(p, 'birthDate', patient.birthDate ? said(who.birthDate) : absent(p)),
    sex: fact(p, 'sex', patient.sex ? said(who.sex) : absent(p)),
    identifiers: fact(p, 'identifiers', said(...patient.identifiers.map(id => id.value))),
    caseId: fact(p, 'caseId', said(p.record.case.id)),
  };
}

function patientFacts(p: Printer): Fact[] {
  const { patient } = p.record;
  const { name, birthDate, sex, identifiers } = identityFacts(p);
  return [
    name,
    birthDate,
    sex,
    identifiers,
    ...detail(p, 'weight', patient.weight && p.quantity(patient.weight)),
    ...detail(p, 'height', patient.height && p.quantity(patient.height)),
    ...detail(p, 'pregnant', patient.pregnant && p.say(`pregnant.${patient.pregnant}`)),
  ];
}

function caseFacts(p: Printer): Fact[] {
  const c = p.record.case;
  return [
    procedure(p),
    dateOfCase(p),
    caseStatus(p),
    side(p),
    ...detail(p, 'kind', p.caseKind(c.kind)),
    ...detail(p, 'category', c.category && p.say(`category.${c.category}`)),
    ...detail(p, 'urgency', c.urgency && p.say(`urgency.${c.urgency}`)),
    ...detail(p, 'session', c.session === undefined ? undefined : String(c.session)),
    identityFacts(p).caseId,
    ...detail(p, 'accession', c.accession),
    ...detail(p, 'order', c.order?.value),
    ...detail(p, 'encounter', c.encounter?.value),
    ...detail(p, 'started', c.started && p.moment(c.started)),
    ...detail(p, 'ended', c.ended && p.moment(c.ended)),
    ...detail(p, 'times', p.zone() ?? c.timeZone),
    ...detail(p, 'location', c.location && [c.location.name, c.location.identifier?.value ?? '']),
    ...detail(
      p,
      'organization',
      c.organization && [
        c.organization.name,
        c.organization.identifier?.value ?? '',
        c.organization.phone ?? '',
      ],
    ),
  ];
}

/** `Room 2, Hospital`: where it was done; empty when nobody says. */
export function placeOf({ record }: Printer): string {
  return [record.case.location?.name, record.case.organization?.name]
    .filter(name => name !== undefined)
    .join(', ');
}

export function caseSection(p: Printer): Section {
  return section(p, 'case', [
    facts(p, 'table.patient', patientFacts(p), 2),
    facts(p, 'table.case', caseFacts(p), 2),
  ]);
}

export function indication(p: Printer): Fact {
  return fact(p, 'indication', said(p.record.indication.text));
}

export function indicationSection(p: Printer): Section {
  const { conditions, question } = p.record.indication;
  return section(p, 'indication', [
    facts(p, undefined, [
      indication(p),
      ...detail(
        p,
        'conditions',
        conditions?.map(condition => condition.text),
      ),
      ...detail(p, 'question', question),
      ...detail(p, 'planned', p.record.planned && p.caseKind(p.record.planned.text)),
    ]),
  ]);
}

export function teamSection(p: Printer): Section {
  return section(p, 'team', [
    table(
      p,
      'section.team',
      ['role', 'name', 'where'],
      p.record.team.map((member, index) => ({
        key: `team[${index}]`,
        cells: [
          p.say(`role.${member.role}`),
          [member.name, member.identifier?.value],
          member.organization === undefined && member.phone === undefined
            ? null
            : [member.organization, member.phone],
        ],
      })),
    ),
  ]);
}
