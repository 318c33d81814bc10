import { compareNames } from '../delivery/patient/names.js';
import { type Finding, finding } from '../findings/finding.js';
import { message, type Param } from '../findings/message.js';
import { shownText } from '../record/issues.js';
import type { Tree } from '../record/read.js';
import { valueAt } from '../record/tree.js';
import type { About, Contribution } from './contribution.js';
import { rankOf, type Source, sourceOf, sourceSaid } from './source.js';

/** What is held against each other, with its path in the record. */
const compared = {
  identifier: 'patient.identifiers',
  birthDate: 'patient.birthDate',
  sex: 'patient.sex',
  name: 'patient.name',
  accession: 'case.accession',
} as const;
type What = keyof typeof compared;

interface Known extends About {
  /** Who says so. */
  readonly source?: Source;
}

/** One thing that two sides say differently. */
interface Contradiction {
  readonly what: What;
  readonly theirs: string;
  readonly ours: string;
}

/** What was let in and what was held back whole, and why. */
export interface Admitted {
  readonly taken: readonly Contribution[];
  readonly held: readonly Source[];
  readonly findings: readonly Finding[];
}

/** Who knows a patient best, where the record says nothing yet: orders and registers before what a machine was told. */
const KNOWS = ['order', 'register', 'earlier case', 'form', 'scan', 'dose report', 'line', 'kit'];

/**
 * Holds every source against the record, and against the others where the record is silent: one that speaks of another
 * patient or case is held back whole. Of two of the same kind that contradict each other neither is taken, since nobody
 * can tell which of them is right.
 */
export function admit(contributions: readonly Contribution[], tree: Tree | undefined): Admitted {
  const findings: Finding[] = [];
  const held: Contribution[] = [];
  const known: Known[] = [aboutOf(tree)];
  const hold = (one: Contribution, other: Known, contradiction: Contradiction) => {
    held.push(one);
    findings.push(otherPatient(one, other, contradiction));
  };
  for (const from of KNOWS) {
    const group = contributions.filter(one => one.from === from);
    const fitting = group.filter(one => {
      const found = firstOf(known, one);
      if (found) hold(one, ...found);
      return found === undefined;
    });
    const sound = fitting.filter(one => {
      const others = fitting.filter(other => other !== one).map(knownOf);
      const found = firstOf(others, one);
      if (found) hold(one, ...found);
      return found === undefined;
    });
    for (const one of sound) findings.push(...unconfirmed(one, known));
    known.push(...sound.map(knownOf));
  }
  return {
    taken: contributions.filter(one => !held.includes(one)),
    held: held.toSorted((a, b) => rankOf(a) - rankOf(b)).map(sourceOf),
    findings,
  };
}

const knownOf = (one: Contribution): Known => ({ ...one.about, source: sourceOf(one) });

/** The first of those known that contradicts a source, and in what. */
function firstOf(known: readonly Known[], { about }: Contribution): [Known, Contradiction] | undefined {
  if (!about) return undefined;
  for (const one of known) {
    const found = contradictionOf(one, about);
    if (found) return [one, found];
  }
  return undefined;
}

/** The first thing that two sides say differently; undefined where all that both say agrees. */
function contradictionOf(ours: About, theirs: About): Contradiction | undefined {
  const differ = (what: What, a: string | undefined, b: string | undefined) =>
    a && b ? { what, ours: a, theirs: b } : undefined;
  const same = numbers(ours, theirs);
  if (same.other) return { what: 'identifier', ...same.other };
  const born = differ('birthDate', ours.birthDate?.trim(), theirs.birthDate?.trim());
  // Dates agree as far as both go.
  if (born && !born.ours.startsWith(born.theirs) && !born.theirs.startsWith(born.ours)) return born;
  const sex = differ('sex', sexOf(ours.sex), sexOf(theirs.sex));
  if (sex && sex.ours !== sex.theirs) return sex;
  const accession = differ('accession', ours.accession?.trim(), theirs.accession?.trim());
  if (accession && accession.ours !== accession.theirs) return accession;
  const name = differ('name', ours.name?.trim(), theirs.name?.trim());
  // People change their names: where a number of one system is the same, the name alone says nothing.
  if (name && !same.agree && compareNames(name.ours, name.theirs) === 'differs') return name;
  return undefined;
}

const sexOf = (sex: string | undefined) => (sex === 'female' || sex === 'male' ? sex : undefined);

/** Whether a number of one system is the same on both sides, and one that differs on both. */
function numbers(ours: About, theirs: About): { agree: boolean; other?: { ours: string; theirs: string } } {
  const mine = ours.identifiers ?? [];
  const others = theirs.identifiers ?? [];
  const agree = others.some(({ system, value }) =>
    mine.some(
      one =>
        one.value === value && (system === undefined || one.system === undefined || one.system === system),
    ),
  );
  for (const { system, value } of others) {
    const there = mine.filter(one => system !== undefined && one.system === system);
    if (there.length > 0 && there.every(one => one.value !== value))
      return { agree, other: { ours: there.map(one => one.value).join(', '), theirs: value } };
  }
  return { agree };
}

/** Numbers that a record has of its patient, as far as they can be read. */
export function patientNumbers(
  tree: Tree | undefined,
): readonly { readonly system: string; readonly value: string }[] {
  const list = valueAt(tree, ['patient', 'identifiers']);
  return (Array.isArray(list) ? list : []).flatMap(one => {
    const [system, value] = [valueAt(one, ['system']), valueAt(one, ['value'])];
    return typeof system === 'string' && typeof value === 'string' ? [{ system, value }] : [];
  });
}

/** What the record itself says; what cannot be read of it says nothing. */
function aboutOf(tree: Tree | undefined): Known {
  const text = (...path: readonly string[]) => {
    const value = valueAt(tree, path);
    return typeof value === 'string' ? value : undefined;
  };
  const name = valueAt(tree, ['patient', 'name']);
  const said = typeof name === 'object' ? Object.values(name).flat().join(' ') : name;
  const [birthDate, sex] = [text('patient', 'birthDate'), text('patient', 'sex')];
  const accession = text('case', 'accession');
  return {
    identifiers: patientNumbers(tree),
    ...(typeof said === 'string' && { name: said }),
    ...(birthDate !== undefined && { birthDate }),
    ...(sex !== undefined && { sex }),
    ...(accession !== undefined && { accession }),
  };
}

function otherPatient(one: Contribution, other: Known, { what, ours, theirs }: Contradiction): Finding {
  return finding('intake.other-patient', compared[what], {
    source: { sentence: sourceSaid(sourceOf(one)) },
    what: message(`about.${what}`),
    theirs: shownText(theirs),
    ours: shownText(ours),
    against: other.source ? sourceSaid(other.source) : message('intake.theRecord'),
  });
}

/** A source that names a patient where nothing can be compared: a person has to. */
function unconfirmed(one: Contribution, known: readonly Known[]): Finding[] {
  const { about } = one;
  const facts = about ? factsOf(about) : [];
  if (!about || facts.length === 0 || known.every(other => factsOf(other).length === 0)) return [];
  const compares = (other: Known) =>
    (['birthDate', 'name', 'accession'] as const).some(what => about[what] && other[what]) ||
    numbers(other, about).agree;
  if (known.some(compares)) return [];
  const theirs = facts.map(
    ([what, value]): Param =>
      message('intake.fact', { what: message(`about.${what}`), value: shownText(value) }),
  );
  return [
    finding('intake.patient-unconfirmed', 'patient', {
      source: sourceSaid(sourceOf(one)),
      theirs: { list: theirs },
    }),
  ];
}

function factsOf({ identifiers = [], name, birthDate, accession }: About): (readonly [What, string])[] {
  return [
    ...identifiers.map(({ value }) => ['identifier', value] as const),
    ...(name ? [['name', name] as const] : []),
    ...(birthDate ? [['birthDate', birthDate] as const] : []),
    ...(accession ? [['accession', accession] as const] : []),
  ];
}
