import type { OpenedSite } from '../../../pipeline/open-case.js';
import { readDefinition } from '../../../pipeline/registry/definition-file.js';
import type { BatchRow, LineCounts, Submissions } from '../../../registry/store/submissions.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { openSubmissions } from '../../process.js';
import { filled } from '../../terminal/fill.js';
import { openSite } from '../open-site.js';
import type { RegistryFlags } from './open.js';
import { countsText } from './send.js';

interface ListFlags extends RegistryFlags {
  readonly batches?: boolean;
}

interface Listed {
  readonly name: string;
  readonly title: string;
  readonly definition?: string;
  readonly way?: string;
  readonly counts: LineCounts;
  readonly batches: readonly BatchRow[];
}

/** The registries of the site: what each takes, what it was given, and what waits. */
export async function list(flags: ListFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  const submissions = await openSubmissions(flags.data);
  try {
    const names = Object.keys(site.site.registries).filter(
      name => flags.registry === undefined || name === flags.registry,
    );
    const all: Listed[] = [];
    for (const name of names) all.push(await listed(name, site, submissions));
    if (flags.json) output.out(jsonText({ registries: all }));
    else if (all.length === 0) output.out(filled('The site has no such registry.', output.columns));
    else for (const one of all) tell(one, flags.batches === true, output);
    return exitCodes.ok;
  } finally {
    await submissions.close();
  }
}

async function listed(name: string, { site, folder }: OpenedSite, submissions: Submissions): Promise<Listed> {
  const options = site.registries[name];
  const file = options?.definition;
  const read = file === undefined ? undefined : await readDefinition(file, folder);
  return {
    name,
    title: options?.name ?? name,
    ...(read && {
      definition: `${read.definition.name}, ${read.definition.version}`,
      way: `${read.definition.format.kind} by ${read.definition.transport.kind}`,
    }),
    counts: await submissions.counts(name),
    batches: await submissions.batches(name),
  };
}

function tell({ name, title, definition, way, counts, batches }: Listed, all: boolean, output: Output): void {
  const how = definition === undefined ? 'no definition: registry build alone' : `${definition} (${way})`;
  output.out(filled(`${name}: ${title}; ${how}`, output.columns, '', '  '));
  output.out(filled(countsText(counts), output.columns, '  ', '  '));
  const open = batches.filter(({ state }) => state !== 'answered');
  const shown = all ? batches : open;
  output.out(
    filled(
      `${counted(batches.length, 'batch', 'batches')}, ${open.length} without a whole answer.`,
      output.columns,
      '  ',
      '  ',
    ),
  );
  for (const { id, state, manifest, reason } of shown)
    output.out(
      filled(
        `${id}: ${counted(manifest.entries, 'entry', 'entries')}, ${STATES[state]}${reason === undefined ? '' : ` (${reason.replace(/\.$/, '')})`}`,
        output.columns,
        '  - ',
        '    ',
      ),
    );
}

const STATES = {
  made: 'waiting to be sent',
  sending: 'may have arrived',
  sent: 'sent, not answered yet',
  answered: 'answered',
} as const;
