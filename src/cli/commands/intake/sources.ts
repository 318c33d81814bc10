import { basename } from 'node:path';
import { CasetallyError } from '../../../findings/errors.js';
import { stops } from '../../../findings/finding.js';
import { carriedOnce } from '../../../intake/carried.js';
import type { Contribution } from '../../../intake/contribution.js';
import type { Sources } from '../../../pipeline/intake/bring-in.js';
import {
  earlierCaseContribution,
  type GivenNumber,
  insideContribution,
} from '../../../pipeline/intake/earlier.js';
import { kitFile, kitsNamed } from '../../../pipeline/intake/kits.js';
import { type AskedOrder, askOrder } from '../../../pipeline/intake/order/ask.js';
import { type OpenedSite, openBytes } from '../../../pipeline/open-case.js';
import { caseSystemOf } from '../../../pipeline/settings.js';
import { readBytes } from '../../files.js';
import type { Output } from '../../output.js';
import { openRegister } from '../../process.js';
import { findingsText } from '../../terminal/findings.js';
import { openOneOf } from '../open-destination.js';

/** Where the values of a command come from. */
export interface SourceFlags {
  readonly kit?: readonly string[];
  readonly order?: string;
  readonly from?: string;
  readonly dose?: readonly string[];
  readonly earlier?: readonly string[];
  readonly register?: boolean;
  readonly data?: string;
  readonly site?: string;
}

/** What was read of the sources, and what came of asking others. */
export interface ReadSources extends Sources {
  /** A destination that was asked gave no answer. */
  readonly unreached: boolean;
}

/**
 * Reads everything that the flags name. Each further kind of source has its lines here, and gives contributions.
 * @param patient numbers that the record has of its patient already
 * @param now ISO 8601 with offset
 * @returns undefined where something cannot be read; that is said
 */
export async function contributionsOf(
  flags: SourceFlags,
  site: OpenedSite,
  { patient, now }: { readonly patient: readonly GivenNumber[]; readonly now: string },
  output: Output,
): Promise<ReadSources | undefined> {
  const kits = await Promise.all(
    (flags.kit ?? []).map(async name =>
      /[/\\]|\.(?:ya?ml|json)$/i.test(name) ? [await kitFile(name)] : await kitsNamed([name], site),
    ),
  );
  const files = kits.flat();
  for (const { file, findings } of files) output.err(findingsText(file, findings, output));
  if (files.some(({ kit, findings }) => !kit || findings.some(stops))) return undefined;
  const earlier = await Promise.all((flags.earlier ?? []).map(file => earlierCase(file, site, now, output)));
  if (earlier.some(one => one === undefined)) return undefined;
  const dose = await doseOf(flags.dose ?? [], now, output);
  if (dose === 'unusable') return undefined;
  const order = flags.order === undefined ? undefined : await orderOf(flags, flags.order, site, now, output);
  if (order === 'unusable') return undefined;
  const told = [order?.contribution, ...earlier].flatMap(one => one?.about?.identifiers ?? []);
  const numbers = [...patient, ...told];
  const inside = flags.register ? [await insideOf(numbers, flags, site, now)] : [];
  const contributions = [...inside, ...earlier, dose, order?.contribution].flatMap(one => one ?? []);
  return {
    contributions: carriedOnce(contributions),
    kits: files.flatMap(({ kit }) => kit ?? []),
    findings: order?.findings ?? [],
    unreached: order?.unreached ?? false,
  };
}

/** @throws CasetallyError `usage` where nothing is to be brought in */
export function needsSource({ kit = [], dose = [], earlier = [], order, register }: SourceFlags): void {
  if (kit.length + dose.length + earlier.length === 0 && order === undefined && !register)
    throw new CasetallyError(
      'usage',
      'name what is to be brought in: --kit, --order, --dose, --earlier, --register or, for add, --lines.',
    );
}

async function orderOf(
  flags: SourceFlags,
  number: string,
  site: OpenedSite,
  now: string,
  output: Output,
): Promise<AskedOrder | 'unusable'> {
  const { from } = flags;
  const opened = await openOneOf(
    site,
    { ...flags, ...(from !== undefined && { to: from }) },
    output,
    '--from',
  );
  if (!opened) return 'unusable';
  output.progress?.(`Asking ${opened.target.destination.name}`);
  return askOrder(opened.session, { destination: opened.target.destination.name, number, at: now });
}

/** What dose reports give; what cannot be read of them is said, and where one is no dose report, nothing is taken. */
async function doseOf(
  files: readonly string[],
  now: string,
  output: Output,
): Promise<Contribution | undefined | 'unusable'> {
  if (files.length === 0) return undefined;
  const { readDoseFiles } = await import('../../../intake/dose/files.js');
  // A record goes further than the folders of this machine.
  const given = await Promise.all(
    files.map(async file => ({ file: basename(file), bytes: await readBytes(file) })),
  );
  const { files: read, contribution } = await readDoseFiles(given, { readAt: now });
  const unread = read.filter(({ report }) => !report);
  for (const { file, findings } of unread) output.err(findingsText(file, findings, output));
  return unread.length > 0 ? 'unusable' : contribution;
}

async function earlierCase(
  file: string,
  site: OpenedSite,
  now: string,
  output: Output,
): Promise<Contribution | undefined> {
  const opened = await openBytes(await readBytes(file), site, Date.parse(now));
  const made = earlierCaseContribution(opened, site.site, now);
  if (!made) output.err(findingsText(file, opened.findings.filter(stops), output));
  return made;
}

/** @throws CasetallyError `usage` where the site keeps no register, or nobody knows yet who the patient is */
async function insideOf(
  numbers: readonly GivenNumber[],
  { data }: SourceFlags,
  { site }: OpenedSite,
  at: string,
): Promise<Contribution | undefined> {
  if (!site.register)
    throw new CasetallyError('usage', 'the site keeps no register: write register: {} in its configuration.');
  if (numbers.length === 0)
    throw new CasetallyError(
      'usage',
      'the register is asked by a number of the patient: give --order or --earlier, or write patient.identifiers first.',
    );
  const own = caseSystemOf(site);
  const { register } = await openRegister(data, own);
  try {
    return (await insideContribution(register, numbers, own, at))?.contribution;
  } finally {
    await register.close();
  }
}
