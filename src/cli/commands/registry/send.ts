import { stops } from '../../../findings/finding.js';
import { type BuildScratch, type BuiltFile, CaseCollector } from '../../../pipeline/registry/collect.js';
import { locatedIn } from '../../../pipeline/registry/locate.js';
import { Scratch } from '../../../pipeline/registry/scratch.js';
import {
  type Planned,
  planCases,
  type Resend,
  type SendWork,
  sendLines,
} from '../../../pipeline/registry/send.js';
import { type BatchFate, settleBatches } from '../../../pipeline/registry/settle.js';
import { reservedHosts } from '../../../pipeline/reserved-hosts.js';
import { batchText } from '../../../registry/format/batch.js';
import type { LineCounts } from '../../../registry/store/submissions.js';
import type { Site } from '../../../site/site.js';
import { type ExitCode, exitCodes, worstOf } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import { countLine } from '../../terminal/counts.js';
import { filled } from '../../terminal/fill.js';
import { findingsText, ownLines } from '../../terminal/findings.js';
import { collectCases, type OpenedRegistry, type RegistryFlags, withWayTo } from './open.js';
import { exitOfFates, fateFindings, fateLines } from './say.js';

/** Gives a registry what it has not heard yet of cases. */
export const send = (places: readonly string[], flags: RegistryFlags, output: Output): Promise<ExitCode> =>
  sending(places, flags, output, { missing: false, refused: false });

interface ResendFlags extends RegistryFlags {
  readonly refused?: boolean;
}

/** The same, and what an answer left out once more; with --refused what was refused as well, unchanged. */
export const resend = (places: readonly string[], flags: ResendFlags, output: Output): Promise<ExitCode> =>
  sending(places, flags, output, { missing: true, refused: flags.refused === true });

function sending(
  places: readonly string[],
  flags: RegistryFlags,
  output: Output,
  again: Resend,
): Promise<ExitCode> {
  return withWayTo(flags, output, async (work, opened) => {
    // What may have arrived is asked for before anything else goes out.
    const settled = await settleBatches(work);
    const plan = await planOf(places, flags, output, work, opened, again);
    const { planned, results, sources } = plan;
    output.progress?.('Sending');
    const sent = await sendLines(planned, work);
    const counts = await work.submissions.counts(work.registry);
    const said = { settled, sent, results, counts };
    if (flags.json) output.out(jsonText({ registry: work.registry, ...said }));
    else tell(work.registry, said, output, sources);
    return worstOf([plan.exit, exitOfFates([...settled, ...sent])]);
  });
}

/** Says what would be sent, and what holds it back; nothing is sent or kept as sent. */
export function check(places: readonly string[], flags: RegistryFlags, output: Output): Promise<ExitCode> {
  return withWayTo(flags, output, async (work, opened) => {
    const plan = await planOf(places, flags, output, work, opened);
    const { planned, sources } = plan;
    const elements = planned.lines.map(line => line.elements);
    const hosts = reservedHosts(batchText(elements, work.definition, opened.registry.options), work.registry);
    const results = [
      ...(hosts.length > 0 ? [{ file: flags.site ?? 'registry', findings: hosts }] : []),
      ...plan.results,
    ];
    if (flags.json) output.out(jsonText({ registry: work.registry, wouldSend: numbersOf(planned), results }));
    else {
      const { first, changed, takenBack } = numbersOf(planned);
      const found = results.flatMap(({ findings }) => findings);
      output.out(
        filled(
          `${work.registry} would be sent ${counted(first, 'new entry', 'new entries')}, ${counted(changed, 'changed one', 'changed ones')} and ${takenBack} taken back; ${countLine(found)}`,
          output.columns,
          '',
          '  ',
        ),
      );
      tellFiles(results, output, sources);
    }
    return worstOf([plan.exit, exitOfFiles(results)]);
  });
}

/** Reads the cases, and works out what of them goes out. */
async function planOf(
  places: readonly string[],
  flags: RegistryFlags,
  output: Output,
  work: SendWork,
  opened: OpenedRegistry,
  again?: Resend,
) {
  const scratch: BuildScratch = await Scratch.open();
  try {
    const collector = new CaseCollector(opened.registry, scratch);
    const { unread, sources } = await collectCases(places, collector, opened, flags, output);
    const { cases, files, noCase } = collector.finish();
    const planned = await planCases(cases, work, again);
    const results = [...files].map(file => withPlan(file, planned, sources, opened.site.site));
    const read = unread.length > 0 || noCase ? exitCodes.usage : exitCodes.ok;
    return { planned, results, sources, exit: worstOf([read, exitOfFiles(results)]) };
  } finally {
    scratch.close();
  }
}

/** A file with what the registry makes of it, at the lines of the file where its text is at hand. */
function withPlan(
  file: BuiltFile,
  { findings }: Planned,
  sources: ReadonlyMap<string, Uint8Array>,
  site: Site,
): BuiltFile {
  const more = findings.get(file.file) ?? [];
  if (more.length === 0) return file;
  const source = sources.get(file.file);
  const located = source === undefined ? more : locatedIn(source, more, site);
  return { ...file, findings: [...file.findings, ...located] };
}

function numbersOf({ lines }: Planned) {
  const takenBack = lines.filter(({ elements }) => elements.status === 'entered-in-error').length;
  const first = lines.filter(({ version }) => version === 1).length;
  return { first, changed: lines.length - first - takenBack, takenBack };
}

function tell(
  registry: string,
  {
    settled,
    sent,
    results,
    counts,
  }: {
    readonly settled: readonly BatchFate[];
    readonly sent: readonly BatchFate[];
    readonly results: readonly BuiltFile[];
    readonly counts: LineCounts;
  },
  output: Output,
  sources: ReadonlyMap<string, Uint8Array>,
): void {
  const fates = [...settled, ...sent];
  const entries = sent.reduce((sum, fate) => sum + fate.entries, 0);
  const found = [...results.flatMap(({ findings }) => findings), ...fates.flatMap(fateFindings)];
  const what = sent.length === 0 ? 'Nothing new' : counted(entries, 'entry', 'entries');
  const batches = sent.length === 0 ? '' : ` in ${counted(sent.length, 'batch', 'batches')}`;
  output.out(filled(`${what} for ${registry}${batches}; ${countLine(found)}`, output.columns, '', '  '));
  for (const line of fateLines(fates)) output.out(filled(line, output.columns, '- ', '  '));
  output.out(filled(countsText(counts), output.columns, '', '  '));
  tellFiles(results, output, sources);
  for (const fate of fates) output.err(findingsText(fate.from ?? fate.batch, fateFindings(fate), output));
}

/** How the newest version of every entry stands at the registry. */
export const countsText = ({ accepted, duplicate, refused, missing, open }: LineCounts): string =>
  `${counted(accepted + duplicate, 'entry', 'entries')} accepted, ${refused} refused, ${missing} left out of an answer, ${open} not answered yet.`;

function tellFiles(
  results: readonly BuiltFile[],
  output: Output,
  sources: ReadonlyMap<string, Uint8Array>,
): void {
  for (const { file, findings } of results) {
    const source = sources.get(file);
    output.err(findingsText(file, findings, output, source && ownLines(output, source)));
  }
}

/** 1 where anything is held back or waits. */
function exitOfFiles(files: readonly BuiltFile[]): ExitCode {
  const held = files.some(
    ({ fate, findings }) => fate === 'waiting' || findings.some(one => stops(one) || WAITING.has(one.code)),
  );
  return held ? exitCodes.findings : exitCodes.ok;
}

const WAITING: ReadonlySet<string> = new Set([
  'registry.waits-for-answer',
  'registry.not-answered',
  'registry.too-few-alike',
]);
