import type { Finding } from '../../findings/finding.js';
import type { EarlierDevice } from '../../registry/entry/earlier.js';
import type { EntryElements } from '../../registry/entry/elements.js';
import { type RegistryManifest, Submission } from '../../registry/submission.js';
import type { OpenedCase } from '../open-case.js';
import { reservedHosts } from '../reserved-hosts.js';
import { alikeWithin } from './alike.js';
import { type BuildScratch, type BuiltFile, CaseCollector, type RegistryToBuild } from './collect.js';
import { Scratch } from './scratch.js';

/**
 * A registry build, and what there is to say of each file. Its lines lie on the disk until the builder is closed, and are
 * read anew each time they are gone through.
 */
export interface RegistryBuild {
  readonly manifest: RegistryManifest;
  /** The entries, in the format of the registry, piece by piece. */
  readonly pieces: () => Iterable<string>;
  readonly files: Iterable<BuiltFile>;
  /** True where a file is no case record at all. */
  readonly noCase: boolean;
  /** Of the build as a whole. */
  readonly findings: readonly Finding[];
}

/** Collects the entries of cases for one registry into one submission; see `CaseCollector` for the gate. */
export class RegistryBuilder {
  readonly #registry: RegistryToBuild;
  readonly #scratch: BuildScratch;
  readonly #collector: CaseCollector;

  private constructor(registry: RegistryToBuild, scratch: BuildScratch) {
    this.#registry = registry;
    this.#scratch = scratch;
    this.#collector = new CaseCollector(registry, scratch);
  }

  /** @throws CasetallyError 'optional-package-missing': what waits on the disk needs the package of the outbox. */
  static async open(registry: RegistryToBuild): Promise<RegistryBuilder> {
    return new RegistryBuilder(registry, await Scratch.open());
  }

  /** @param earlier what the register knows of devices that were carried in, by their key */
  add(file: string, opened: OpenedCase, earlier?: ReadonlyMap<string, EarlierDevice>): void {
    this.#collector.add(file, opened, earlier);
  }

  /** The submission, from the newest version of each case. People are alike among those of the build. */
  finish(): RegistryBuild {
    const { name, options, definition } = this.#registry;
    const { cases, files, unreadable, noCase } = this.#collector.finish();
    const submission = new Submission(name, options, definition);
    alikeWithin(cases, definition, this.#scratch, (one, fate, entries) =>
      submission.addCase(one.pseudonym, fate, entries),
    );
    const lines = (): Iterable<EntryElements> => this.#scratch.lines();
    // One way through the lines for both: a million of them are read from the disk.
    const findings = reservedHosts(submission.counted(lines()), name);
    return {
      manifest: submission.manifest(unreadable),
      pieces: () => submission.pieces(lines()),
      ...{ files, noCase, findings },
    };
  }

  /** Lets go of what lies on the disk. */
  close(): void {
    this.#scratch.close();
  }
}
