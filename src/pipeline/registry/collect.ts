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
import { SerialsSeen } from './serials.js';

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
interface UnreadFile extends BuiltFile {
  readonly noCase: boolean;
}

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

const isTakenCase = (one: TakenCase | UnreadFile): one is TakenCase => 'digest' in one;

/**
 * Makes the entries of cases for one registry, case by case; of each only what is sent is kept in memory.
 *
 * The gate is that of sending: an error of the record holds the case back, as does an entry that does not conform to our
 * profile of it, or lacks what the registry cannot do without. A preliminary report waits; of several versions of a case
 * the newest counts.
 */
export class CaseCollector {
  readonly #registry: RegistryToBuild;
  readonly #extras: EntryExtras;
  /** In the order in which they were added. */
  readonly #files: (TakenCase | UnreadFile)[] = [];
  readonly #serials = new SerialsSeen();

  constructor(registry: RegistryToBuild) {
    this.#registry = registry;
    const { definition, extras } = registry;
    this.#extras = { ...extras, ...(definition && { asked: askedBy(definition) }) };
  }

  /** @param earlier what the register knows of devices that were carried in, by their key */
  add(file: string, opened: OpenedCase, earlier?: ReadonlyMap<string, EarlierDevice>): void {
    const { record, assessment, parsed } = opened;
    if (!record || !assessment) {
      this.#files.push({ file, findings: opened.findings, noCase: opened.unreadable });
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
    this.#files.push({
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
    for (const device of assessment.devices.values())
      this.#serials.add(device, {
        case: record.case.id,
        date: record.case.date,
        patient: number ? `${number.system}|${number.value}` : '',
      });
  }

  /** What became of each case: the newest version of it counts. */
  finish(): {
    readonly cases: readonly TakenCase[];
    readonly files: readonly BuiltFile[];
    readonly unreadable: number;
    /** True where a file is no case record at all. */
    readonly noCase: boolean;
  } {
    const serials = this.#serials.findings();
    const counted = newest(this.#files.filter(isTakenCase));
    const unread = this.#files.flatMap(one => (isTakenCase(one) ? [] : [one]));
    const told = ({ file, fate, findings, id }: TakenCase): BuiltFile => ({
      file,
      fate,
      findings: [...findings, ...(fate === 'superseded' ? [] : (serials.get(id) ?? []))],
    });
    return {
      cases: [...counted.values()],
      files: this.#files.map(one =>
        isTakenCase(one) ? told(counted.get(one) ?? one) : { file: one.file, findings: one.findings },
      ),
      unreadable: unread.length,
      noCase: unread.some(({ noCase }) => noCase),
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

/** Each case as it counts: of its versions the newest keeps its entries. Two texts of one version count neither. */
function newest(all: readonly TakenCase[]): Map<TakenCase, TakenCase> {
  const superseded = (one: TakenCase, by: Finding): TakenCase => ({
    ...one,
    fate: 'superseded',
    entries: [],
    findings: [by],
  });
  const judged = new Map(all.map(one => [one, one]));
  for (const versions of grouped(all, ({ id }) => id).values()) {
    const last = Math.max(...versions.map(({ version }) => version));
    const latest = versions.filter(({ version }) => version === last);
    const digests = new Set(latest.map(({ digest }) => digest));
    const [first] = latest;
    for (const one of versions) {
      if (one.version !== last) {
        const params = { case: one.id, version: `${last}` };
        judged.set(one, superseded(one, finding('registry.newer-version', 'report.version', params)));
      } else if (digests.size > 1) {
        const said = finding('registry.version-twice', 'report.version', {
          case: one.id,
          version: `${last}`,
        });
        judged.set(one, { ...one, fate: 'held back', entries: [], findings: [...one.findings, said] });
      } else if (one !== first)
        judged.set(one, superseded(one, finding('registry.given-twice', '', { case: one.id })));
    }
  }
  return judged;
}
