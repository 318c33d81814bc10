import { toFinding } from '../../conformance/outcome.js';
import type { Validator } from '../../conformance/result.js';
import { ownProfile } from '../../fhir/profiles.js';
import { reportVersion } from '../../fhir/resources/version.js';
import { type Finding, finding, stops } from '../../findings/finding.js';
import { recordDigest } from '../../record/digest.js';
import { grouped } from '../../record/grouped.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { casePseudonym } from '../../registry/entry/case.js';
import { type RegistryEntry, registryEntries } from '../../registry/entry/entries.js';
import type { PseudonymKey, RegistryOptions } from '../../registry/options.js';
import { patientNumber } from '../../registry/patient-number.js';
import {
  type CaseFate,
  type RegistrySubmission,
  registrySubmission,
  type SubmittedCase,
} from '../../registry/submission.js';
import type { OpenedCase } from '../open-case.js';
import { reservedHosts } from '../reserved-hosts.js';
import { SerialsSeen } from './serials.js';

/** A registry, and what entries for it are made with. */
export interface RegistryToBuild {
  readonly name: string;
  readonly options: RegistryOptions;
  readonly key: PseudonymKey;
  readonly validator: Validator;
}

/** What became of one file. */
export interface BuiltFile {
  readonly file: string;
  /** Absent for a file that is no case. */
  readonly fate?: CaseFate;
  readonly findings: readonly Finding[];
}

/** A registry build, and what there is to say of each file. */
export interface RegistryBuild extends RegistrySubmission {
  readonly files: readonly BuiltFile[];
  /** True where a file is no case record at all. */
  readonly noCase: boolean;
  /** Of the build as a whole. */
  readonly findings: readonly Finding[];
}

/** A file that is no whole case. */
interface UnreadFile extends BuiltFile {
  readonly noCase: boolean;
}

const isTaken = (one: TakenCase | UnreadFile): one is TakenCase => 'digest' in one;

interface TakenCase extends SubmittedCase {
  readonly file: string;
  readonly id: string;
  readonly version: number;
  readonly digest: string;
  readonly findings: readonly Finding[];
}

/**
 * Collects the entries of cases for one registry, case by case; of each only what is sent is kept in memory.
 *
 * The gate is that of sending: an error of the record holds the case back, as does an entry that does not conform to
 * our profile of it. A preliminary report waits; of several versions of a case the newest counts.
 */
export class RegistryBuilder {
  readonly #registry: RegistryToBuild;
  /** In the order in which they were added. */
  readonly #files: (TakenCase | UnreadFile)[] = [];
  readonly #serials = new SerialsSeen();

  constructor(registry: RegistryToBuild) {
    this.#registry = registry;
  }

  add(file: string, opened: OpenedCase): void {
    const { record, assessment, parsed } = opened;
    if (!record || !assessment) {
      this.#files.push({ file, findings: opened.findings, noCase: opened.unreadable });
      return;
    }
    const { options, key } = this.#registry;
    const gate = gated(record, opened.findings);
    const { entries, findings } =
      gate.fate === undefined
        ? registryEntries(record, assessment, options, key)
        : { entries: [], findings: gate.findings };
    const checked = entries.map(entry => this.#checked(entry));
    const fit = checked.filter(entry => !entry.findings.some(stops));
    const said = [...findings, ...checked.flatMap(entry => entry.findings)];
    const held = said.some(stops);
    this.#files.push({
      file,
      id: record.case.id,
      pseudonym: casePseudonym(record, key),
      fate: gate.fate ?? (held ? 'held back' : fit.length > 0 ? 'entered' : 'without devices'),
      entries: fit.map(({ date, json }) => ({ date, json })),
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

  /** The submission, from the newest version of each case. */
  finish(): RegistryBuild {
    const { name, options } = this.#registry;
    const serials = this.#serials.findings();
    const taken = this.#files.filter(isTaken);
    const unread = this.#files.flatMap(one => (isTaken(one) ? [] : [one]));
    const counted = newest(taken);
    const built = registrySubmission([...counted.values()], unread.length, name, options);
    const told = ({ file, fate, findings, id }: TakenCase): BuiltFile => ({
      file,
      fate,
      findings: [...findings, ...(fate === 'superseded' ? [] : (serials.get(id) ?? []))],
    });
    return {
      ...built,
      files: this.#files.map(one =>
        isTaken(one) ? told(counted.get(one) ?? one) : { file: one.file, findings: one.findings },
      ),
      noCase: unread.some(({ noCase }) => noCase),
      findings: reservedHosts(built.ndjson, name),
    };
  }

  /** An entry as it is sent, held against our profile of it. */
  #checked(entry: RegistryEntry): RegistryEntry & { readonly json: string } {
    const { validator, options } = this.#registry;
    const profiles = [ownProfile('registry-entry', options.canonical)];
    // One line; an entry has no decimals whose digits matter.
    const json = JSON.stringify(entry.resource);
    const { issues } = validator.validateText(json, { profiles });
    const wrong = issues
      .filter(({ severity }) => severity === 'error' || severity === 'fatal')
      .map(issue => ({ ...toFinding(issue), path: `devices.${entry.device}` }));
    return { ...entry, json, findings: [...entry.findings, ...wrong] };
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
