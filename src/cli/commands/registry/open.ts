import type { Validator } from '../../../conformance/result.js';
import { CasetallyError } from '../../../findings/errors.js';
import { type OpenedSite, openBytes } from '../../../pipeline/open-case.js';
import type { BuiltFile, CaseCollector } from '../../../pipeline/registry/collect.js';
import { earlierOf } from '../../../pipeline/registry/earlier.js';
import { openRegistry, type RegistryInUse } from '../../../pipeline/registry/in-use.js';
import { heldToRing } from '../../../pipeline/registry/key-ring.js';
import { openTransport } from '../../../pipeline/registry/open-transport.js';
import type { SendWork } from '../../../pipeline/registry/send.js';
import { canonicalOf, caseSystemOf } from '../../../pipeline/settings.js';
import { loadTools } from '../../../pipeline/tools.js';
import type { Register } from '../../../register/store/register.js';
import type { Submissions } from '../../../registry/store/submissions.js';
import { softwareVersion } from '../../about.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import type { Output } from '../../output.js';
import { hasRegister, openRegister, openSubmissions, processDeps, secretsFrom } from '../../process.js';
import { findingsText } from '../../terminal/findings.js';
import { readCases } from '../case-files.js';
import { openSite } from '../open-site.js';

export interface RegistryFlags {
  readonly registry?: string;
  readonly site?: string;
  readonly data?: string;
  readonly json?: boolean;
  readonly from?: string;
  readonly to?: string;
}

/** A registry and what was given to it. */
export interface OpenedRegistry {
  readonly site: OpenedSite;
  readonly registry: RegistryInUse;
  readonly submissions: Submissions;
}

/** The validator under which entries of a site are checked. */
export const validatorOf = ({ site }: OpenedSite): Validator =>
  loadTools(softwareVersion, canonicalOf(site)).validator;

/** Opens a registry for a piece of work, and closes what was given to it whatever comes of that. */
export async function withRegistry(
  flags: RegistryFlags,
  output: Output,
  work: (opened: OpenedRegistry) => Promise<ExitCode>,
): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const registry = await openRegistry(site, flags.registry, validatorOf(site));
  const submissions = await openSubmissions(flags.data);
  try {
    return await work({ site, registry, submissions });
  } finally {
    await submissions.close();
  }
}

/**
 * Opens the way to a registry too. Its secret is held against those of before: pseudonyms of a secret that nobody kept
 * would part one person from another.
 */
export function withWayTo(
  flags: RegistryFlags,
  output: Output,
  work: (way: SendWork, opened: OpenedRegistry) => Promise<ExitCode>,
): Promise<ExitCode> {
  return withRegistry(flags, output, async opened => {
    const { site, registry, submissions } = opened;
    const { name, options, definition, definitionDigest = '' } = registry;
    if (options.key === undefined)
      throw new CasetallyError(
        'settings-invalid',
        `registry '${name}' has no secret for pseudonyms, and nothing is sent without one: set registries.${name}.key in the site configuration (env:NAME or file:PATH).`,
      );
    const deps = processDeps(flags.data);
    const way = await openTransport(registry, site, deps, secretsFrom(site.folder));
    output.err(findingsText(flags.site ?? 'registry', [...way.findings, ...registry.findings], output));
    if (!way.transport || !definition) return exitCodes.usage;
    await heldToRing(name, registry.key, options, submissions, deps.clock());
    const { transport, settleMs } = way;
    return work(
      {
        ...{ registry: name, definition, submissions, transport, settleMs, definitionDigest },
        ...{ toBuild: registry, clock: deps.clock, newId: deps.newId },
        software: `casetally ${softwareVersion}`,
      },
      opened,
    );
  });
}

/** What reading the cases came to. */
export interface CollectedCases {
  /** Files that could not be read as a case. */
  readonly unread: readonly BuiltFile[];
  readonly sources: ReadonlyMap<string, Uint8Array>;
}

/**
 * Adds cases to a collector: the files and folders that are named, or where none is, what the register keeps of the days
 * asked for. What the register knows of devices that were carried in goes with them.
 */
export async function collectCases(
  places: readonly string[],
  collector: Pick<CaseCollector, 'add'>,
  { site }: Pick<OpenedRegistry, 'site'>,
  flags: RegistryFlags,
  output: Output,
): Promise<CollectedCases> {
  const unread: BuiltFile[] = [];
  const sources = new Map<string, Uint8Array>();
  if (places.length > 0 && (flags.from !== undefined || flags.to !== undefined))
    throw new CasetallyError('usage', 'name cases, or days with --from and --to, and not both.');
  const days = [flags.from, flags.to].find(day => day !== undefined && !/^\d{4}(-\d\d){0,2}$/.test(day));
  if (days !== undefined) throw new CasetallyError('usage', `${days} is no day: write YYYY-MM-DD.`);
  const register =
    site.site.register && hasRegister(flags.data)
      ? (await openRegister(flags.data, caseSystemOf(site.site))).register
      : undefined;
  const one = async (bytes: Uint8Array, file: string) => {
    output.progress?.(`Reading ${file}`);
    const opened = await openBytes(bytes, site, Date.now());
    collector.add(file, opened, register && (await earlierOf(opened, register)));
    // To say on which line of it something stands; those of a few files.
    if (sources.size < SHOWN) sources.set(file, bytes);
    return true;
  };
  try {
    if (places.length > 0) {
      const read = await readCases(places, one);
      for (const { file, problem } of read.unread) output.err(`${file}: ${problem}\n`);
      unread.push(...read.unread.map(({ file }) => ({ file, findings: [] })));
    } else await fromRegister(register, flags, one);
  } finally {
    await register?.close();
  }
  return { unread, sources };
}

/** Files of which the text is kept. */
const SHOWN = 200;

async function fromRegister(
  register: Register | undefined,
  { from, to }: RegistryFlags,
  one: (bytes: Uint8Array, file: string) => Promise<boolean>,
): Promise<void> {
  if (!register)
    throw new CasetallyError(
      'usage',
      'name the cases; or keep a register (register: {} in the site configuration), and give --from and --to.',
    );
  for await (const { case: name, record } of register.records(from, to))
    await one(Buffer.from(record, 'utf8'), name);
}
