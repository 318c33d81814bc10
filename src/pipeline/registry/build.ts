import type { Finding } from '../../findings/finding.js';
import type { EarlierDevice } from '../../registry/entry/earlier.js';
import { type RegistrySubmission, registrySubmission } from '../../registry/submission.js';
import type { OpenedCase } from '../open-case.js';
import { reservedHosts } from '../reserved-hosts.js';
import { alikeWithin } from './alike.js';
import { type BuiltFile, CaseCollector, type RegistryToBuild } from './collect.js';

/** A registry build, and what there is to say of each file. */
export interface RegistryBuild extends RegistrySubmission {
  readonly files: readonly BuiltFile[];
  /** True where a file is no case record at all. */
  readonly noCase: boolean;
  /** Of the build as a whole. */
  readonly findings: readonly Finding[];
}

/** Collects the entries of cases for one registry into one text; see `CaseCollector` for the gate. */
export class RegistryBuilder {
  readonly #registry: RegistryToBuild;
  readonly #collector: CaseCollector;

  constructor(registry: RegistryToBuild) {
    this.#registry = registry;
    this.#collector = new CaseCollector(registry);
  }

  /** @param earlier what the register knows of devices that were carried in, by their key */
  add(file: string, opened: OpenedCase, earlier?: ReadonlyMap<string, EarlierDevice>): void {
    this.#collector.add(file, opened, earlier);
  }

  /** The submission, from the newest version of each case. People are alike among those of the build. */
  finish(): RegistryBuild {
    const { name, options, definition } = this.#registry;
    const { cases, files, unreadable, noCase } = this.#collector.finish();
    const { entered, findings } = alikeWithin(cases, definition);
    const built = registrySubmission(entered, unreadable, name, options, definition);
    const said = (file: BuiltFile): BuiltFile => {
      const more = findings.get(file.file) ?? [];
      return more.length === 0 ? file : { ...file, findings: [...file.findings, ...more] };
    };
    return { ...built, files: files.map(said), noCase, findings: reservedHosts(built.text, name) };
  }
}
