import { toFinding } from '../../conformance/outcome.js';
import type { Validator } from '../../conformance/result.js';
import { ownProfile } from '../../fhir/profiles.js';
import { reportVersion } from '../../fhir/resources/version.js';
import { type Finding, finding, stops } from '../../findings/finding.js';
import { recordDigest } from '../../record/digest.js';
import { grouped } from '../../record/grouped.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { agreed, askedBy, isTaken } from '../../registry/definition/agreed.js';
import type { RegistryDefinition } from '../../registry/definition/schema.js';
import { casePseudonym } from '../../registry/entry/case.js';
import type { EarlierDevice } from '../../registry/entry/earlier.js';
import type { EntryElements } from '../../registry/entry/elements.js';
import { type EntryExtras, type RegistryEntry, registryEntries } from '../../registry/entry/entries.js';
import { fhirEntry } from '../../registry/entry/fhir.js';
import type { PseudonymKey, RegistryOptions } from '../../registry/options.js';
import { type PatientNumber, patientNumber } from '../../registry/patient-number.js';
import type { CaseFate } from '../../registry/submission.js';
import type { OpenedCase } from '../open-case.js';
import type { Scratch } from './scratch.js';
import { type Sighting, serialFindings, sightingOf } from './serials.js';

/** A registry, and what entries for it are made with. */
export interface RegistryToBuild {
  readonly name: string;
  readonly options: RegistryOptions;
  readonly key: PseudonymKey;
  readonly validator: Validator;
  /** What it takes, and how; entries are as narrow as can be without. */
  readonly definition?: RegistryDefinition;
  readonly extras?: Pick<EntryExtras, 'codes' | 'unit'>;
}

/** What became of one file. */
export interface BuiltFile {
  readonly file: string;
  /** Absent for a file that is no case. */
  readonly fate?: CaseFate;
  readonly findings: readonly Finding[];
}

/** A file that is no whole case. */
type UnreadFile = Pick<BuiltFile, 'file' | 'findings'>;

/** An entry of a case that was taken. */
export interface TakenEntry {
  readonly device: string;
  readonly part?: string;
  readonly elements: EntryElements;
  /** False where an error holds it back, or the registry takes no such entries. */
  readonly fit: boolean;
  readonly codes: readonly string[];
}

/** A case as far as entries were made of it. */
export interface TakenCase {
  readonly file: string;
  readonly id: string;
  readonly pseudonym: string;
  readonly fate: CaseFate;
  readonly entries: readonly TakenEntry[];
  readonly number?: PatientNumber;
  readonly version: number;
  readonly digest: string;
  readonly findings: readonly Finding[];
}

/** A case, and where it is kept. */
export interface KeptCase extends TakenCase {
  readonly seq: number;
}

type Read = TakenCase | UnreadFile;

const isTakenCase = (one: Read): one is TakenCase => 'digest' in one;

/** What became of the cases that were given to a collector. It is read from the disk each time it is gone through. */
export interface Collected {
  /** Each case as it counts: the newest version of it has its entries. */
  readonly cases: Iterable<KeptCase>;
  readonly files: Iterable<BuiltFile>;
  readonly unreadable: number;
  /** True where a file is no case record at all. */
  readonly noCase: boolean;
}

/** Working memory of a build. */
export type BuildScratch = Scratch<Read, Sighting, EntryElements>;

/**
 * Makes the entries of cases for one registry, case by case; what is sent of each waits on the disk.
 *
 * The gate is that of sending: an error of the record holds the case back, as does an entry that does not conform to our
 * profile of it, or lacks what the registry cannot do without. A preliminary report waits; of several versions of a case
 * the newest counts.
 */
export class CaseCollector {
  readonly #registry: RegistryToBuild;
  readonly #extras: EntryExtras;
  readonly #kept: BuildScratch;
  #unreadable = 0;
  #noCase = false;

  /** @param scratch opened by the caller, who closes it */
  constructor(registry: RegistryToBuild, scratch: BuildScratch) {
    this.#registry = registry;
    this.#kept = scratch;
    const { definition, extras } = registry;
    this.#extras = { ...extras, ...(definition && { asked: askedBy(definition) }) };
  }

  /** @param earlier what the register knows of devices that were carried in, by their key */
  add(file: string, opened: OpenedCase, earlier?: ReadonlyMap<string, EarlierDevice>): void {
    const { record, assessment, parsed } = opened;
    if (!record || !assessment) {
      this.#unreadable += 1;
      this.#noCase ||= opened.unreadable;
      this.#kept.add(undefined, { file, findings: opened.findings });
      return;
    }
    const { options, key } = this.#registry;
    const gate = gated(record, opened.findings);
    const made =
      gate.fate === undefined
        ? registryEntries(record, assessment, options, key, { ...this.#extras, ...(earlier && { earlier }) })
        : { entries: [], findings: gate.findings };
    const judged = made.entries.map(entry => this.#judged(entry, record.case.id));
    const said = [...made.findings, ...judged.flatMap(({ findings }) => findings)];
    const fit = judged.some(({ entry }) => entry.fit);
    const seq = this.#kept.add(record.case.id, {
      file,
      id: record.case.id,
      pseudonym: casePseudonym(record, key),
      fate: gate.fate ?? (said.some(stops) ? 'held back' : fit ? 'entered' : 'without devices'),
      entries: judged.map(({ entry }) => entry),
      ...(made.number && { number: made.number }),
      version: Number(reportVersion(record).number),
      digest: recordDigest(record),
      findings: said.map(f => ({ ...f, ...parsed.locate(f.path) })),
    });
    const number = patientNumber(record, options) ?? record.patient.identifiers[0];
    const patient = number ? `${number.system}|${number.value}` : '';
    for (const device of assessment.devices.values()) {
      const seen = sightingOf(device, { case: record.case.id, date: record.case.date, patient });
      if (seen) this.#kept.sight(seen.key, seq, seen.sighting);
    }
  }

  /** Ends the collecting: which version of each case counts, and which serial numbers are in two places. */
  finish(): Collected {
    const kept = this.#kept;
    keepNewest(kept);
    sayOfSerials(kept);
    return {
      cases: walking(kept, (one, seq) => (isTakenCase(one) ? { ...one, seq } : undefined)),
      files: walking(kept, one => ({
        file: one.file,
        findings: one.findings,
        ...(isTakenCase(one) && { fate: one.fate }),
      })),
      unreadable: this.#unreadable,
      noCase: this.#noCase,
    };
  }

  /** An entry as the registry is to have it, held against our profile of it and against what the registry asks for. */
  #judged(
    { device, part, elements, findings }: RegistryEntry,
    id: string,
  ): { readonly entry: TakenEntry; readonly findings: readonly Finding[] } {
    const { validator, options, definition } = this.#registry;
    const named = { device, ...(part !== undefined && { part }) };
    if (definition && !isTaken(definition, elements))
      return { entry: { ...named, elements, fit: false, codes: [] }, findings: [] };
    const as = definition ? agreed(elements, definition, { case: id, device }) : { elements, findings: [] };
    const profiles = [ownProfile('registry-entry', options.canonical)];
    // One line; an entry has no decimals whose digits matter.
    const { issues } = validator.validateText(JSON.stringify(fhirEntry(as.elements, options)), { profiles });
    const wrong = issues
      .filter(({ severity }) => severity === 'error' || severity === 'fatal')
      .map(issue => ({ ...toFinding(issue), path: `devices.${device}` }));
    const said = [...findings, ...as.findings, ...wrong];
    const errors = said.filter(stops);
    const codes = errors.map(({ code }) => code);
    return { entry: { ...named, elements: as.elements, fit: errors.length === 0, codes }, findings: said };
  }
}

function gated(
  record: CaseRecord,
  found: readonly Finding[],
): { readonly fate?: CaseFate; readonly findings: readonly Finding[] } {
  const { id } = record.case;
  const errors = found.filter(stops);
  if (errors.length > 0) {
    const held = finding('registry.held-back', '', { case: id, count: `${errors.length}` });
    return { fate: 'held back', findings: [...errors, held] };
  }
  if (record.report.status === 'preliminary')
    return { fate: 'waiting', findings: [finding('registry.preliminary', 'report.status', { case: id })] };
  return { findings: [] };
}

/** Of the versions of each case the one that counts keeps its entries. */
function keepNewest(kept: BuildScratch): void {
  for (const versions of kept.repeated()) {
    const counted = newest(versions.map(([, one]) => one).filter(isTakenCase));
    for (const [seq, one] of versions) {
      const judged = isTakenCase(one) ? counted.get(one) : undefined;
      if (judged && judged !== one) kept.replace(seq, judged);
    }
  }
}

/** Serial numbers that are in two places, said of the cases that they are in. */
function sayOfSerials(kept: BuildScratch): void {
  for (const sightings of kept.sightings()) {
    const found = grouped(serialFindings(sightings.map(([, sighting]) => sighting)), ([of]) => of);
    const said = new Map<number, readonly Finding[]>();
    for (const [seq, sighting] of sightings) {
      const more = found.get(sighting.case);
      if (more)
        said.set(
          seq,
          more.map(([, finding]) => finding),
        );
    }
    for (const [seq, more] of said) {
      const one = kept.file(seq);
      if (one && isTakenCase(one) && one.fate !== 'superseded')
        kept.replace(seq, { ...one, findings: [...one.findings, ...more] });
    }
  }
}

/** What can be gone through again and again. */
function walking<One>(kept: BuildScratch, as: (one: Read, seq: number) => One | undefined): Iterable<One> {
  return {
    *[Symbol.iterator]() {
      for (const [seq, one] of kept.files()) {
        const made = as(one, seq);
        if (made !== undefined) yield made;
      }
    },
  };
}

/** Of the versions of one case the newest keeps its entries. Two texts of one version count neither. */
function newest(versions: readonly TakenCase[]): Map<TakenCase, TakenCase> {
  const superseded = (one: TakenCase, by: Finding): TakenCase => ({
    ...one,
    fate: 'superseded',
    entries: [],
    findings: [by],
  });
  const judged = new Map<TakenCase, TakenCase>();
  const last = Math.max(...versions.map(({ version }) => version));
  const latest = versions.filter(({ version }) => version === last);
  const digests = new Set(latest.map(({ digest }) => digest));
  const [first] = latest;
  for (const one of versions) {
    if (one.version !== last) {
      const params = { case: one.id, version: `${last}` };
      judged.set(one, superseded(one, finding('registry.newer-version', 'report.version', params)));
    } else if (digests.size > 1) {
      const said = finding('registry.version-twice', 'report.version', { case: one.id, version: `${last}` });
      judged.set(one, { ...one, fate: 'held back', entries: [], findings: [...one.findings, said] });
    } else if (one !== first)
      judged.set(one, superseded(one, finding('registry.given-twice', '', { case: one.id })));
  }
  return judged;
}
