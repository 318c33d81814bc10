import type { SecretSource } from '../../delivery/auth/secrets.js';
import { CasetallyError } from '../../findings/errors.js';
import { type Finding, stops } from '../../findings/finding.js';
import { byHarm } from '../../findings/harm.js';
import type { Language } from '../../findings/languages.js';
import { type CheckedCase, checkedRows, tallyRows } from '../../pipeline/check.js';
import { goesTo } from '../../pipeline/destinations.js';
import { type SentBefore, withSentBefore } from '../../pipeline/earlier.js';
import { type OpenedCase, type OpenedSite, openBytes } from '../../pipeline/open-case.js';
import { picturesFrom } from '../../pipeline/pictures/read.js';
import type { PreparedCase, Tools } from '../../pipeline/prepare.js';
import { fontFolders, prepareOpened } from '../../pipeline/prepare-opened.js';
import { printReport, type WantedReport } from '../../pipeline/print-report.js';
import { openReceiver } from '../../pipeline/receiver.js';
import { type SendCaseDeps, sendCase } from '../../pipeline/send-case.js';
import { lettersOf } from '../../pipeline/settings.js';
import type { EarlierVersion } from '../../pipeline/versions.js';
import { type Audience, audiences } from '../../report/options.js';
import { loadPdf } from '../../report/pdf/load.js';
import { whyNoReport } from '../../report/refusal.js';
import type { Site } from '../../site/site.js';
import { shown } from '../api/outbox-handlers.js';
import { type Reply, refusal, reply } from '../api/reply.js';
import { reportTypes } from './report-types.js';
import type { SentCase } from './sent-case.js';

/** What a case is worked out with, loaded once. */
export interface CasePorts {
  readonly site: OpenedSite;
  readonly tools: Tools;
  /** That people read the answer in: messages in English, and what the site writes in its own, where absent. */
  readonly language?: Language | undefined;
}

/** What storing needs beside that. */
export interface StorePorts extends CasePorts {
  readonly store: NonNullable<SendCaseDeps['store']>;
  readonly secrets: SecretSource;
  readonly process: SendCaseDeps['process'];
}

/** A case that can be read as a whole, and how it is prepared. */
interface WholeCase {
  readonly opened: OpenedCase;
  readonly prepare: (site: Site, before?: readonly SentBefore[]) => Promise<PreparedCase | undefined>;
}

/** POST /cases/check: whether the record is whole, every finding, the device tally, what was worked out. */
export async function checkCaseHandler(sent: SentCase, { site, language }: CasePorts): Promise<Reply> {
  const checked = await openBytes(sent.record, site, Date.now());
  if (checked.unreadable) return unreadable(checked, language);
  const { findings } = checked;
  return reply(
    200,
    {
      whole: checked.record !== undefined,
      ...checkedRows({ ...checked, findings: byHarm(findings) }, language),
    },
    { language },
  );
}

/** Which reports a request asks for. */
export interface WantedReports {
  /** One reader's; all where absent. */
  readonly audience: Audience | undefined;
  /** Those marked as drafts too, while errors stand. */
  readonly draft: boolean;
}

/**
 * POST /cases/prepare: the same findings with those of conformance, the document, the report for each reader, the
 * timeline, where it goes. While errors stand there are no bundles, no letter to the patient, and other reports only as
 * drafts that were asked for.
 */
export async function prepareCaseHandler(
  sent: SentCase,
  { audience, draft }: WantedReports,
  ports: CasePorts,
): Promise<Reply> {
  const made = await preparedCase(sent, ports);
  if ('refused' in made) return made.refused;
  const { opened, site, prepared } = made;
  const { language } = ports;
  const { sendable, findings, document, submission, timeline } = prepared;
  const errors = findings.filter(stops);
  const refusedFor = (reader: Audience) =>
    whyNoReport(prepared.record, reader, errors.length, draft, lettersOf(site));
  const why = audience && refusedFor(audience);
  if (why !== undefined) return refusal(422, 'invalid', why, errors, {}, language);
  const reports = Object.fromEntries(
    audiences
      .filter(reader => (audience ?? reader) === reader && refusedFor(reader) === undefined)
      .flatMap(reader => {
        const made = prepared.reports[reader];
        return made ? [[reader, { html: made.html, text: made.text }]] : [];
      }),
  );
  const tally = tallyRows(opened, language);
  const to = goesTo(site, prepared.record);
  return reply(
    200,
    { sendable, findings: byHarm(findings), tally, timeline, goesTo: to, reports },
    { language, ...(sendable && { raw: { document, submission } }) },
  );
}

/**
 * POST /cases: takes a case into the outbox, for every destination or for none. 202 says that it is durable, not that it
 * has arrived. Only destinations that the site knows: an address in a request would make the service send anywhere.
 */
export async function acceptCaseHandler(
  sent: SentCase,
  to: string | undefined,
  ports: StorePorts,
): Promise<Reply> {
  const { store, secrets, process, language } = ports;
  const { site } = ports.site;
  const whole = await wholeCase(sent, ports);
  if ('refused' in whole) return whole.refused;
  const { opened, prepare } = whole;
  if (to !== undefined && !Object.hasOwn(site.destinations, to))
    return refusal(400, 'invalid', 'The site configuration has no destination of that name.');
  try {
    const stored = await sendCase(
      { checked: opened, site, to, how: 'store', flag: '?to=' },
      {
        ...{ prepare, secrets, process, store },
        receiver: name => openReceiver(ports.site, name),
        outbox: async () => undefined,
      },
    );
    const items = stored.sent.flatMap(one => (one.kind === 'stored' ? [one.item] : []));
    const findings = stored.sent[0]?.findings ?? stored.unusable;
    const [first] = items;
    if (!first)
      return refusal(422, 'invalid', 'The case was not taken in: see the findings.', findings, {}, language);
    return {
      ...reply(202, { items: items.map(item => shown(item, language)), findings }, { language }),
      headers: { location: `/outbox/${first.id}` },
      noted: { items: items.map(({ id }) => id) },
    };
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage')
      return refusal(400, 'invalid', error.message);
    throw error;
  }
}

/**
 * POST /cases/report: one report, the same bytes as the command line prints. While errors stand there is no letter to the
 * patient, and other reports only as drafts that were asked for.
 */
export async function reportCaseHandler(
  { record: bytes, previous, pictures }: SentCase,
  wanted: WantedReport,
  { site, tools, language }: CasePorts,
): Promise<Reply> {
  if (previous.length > 0)
    return refusal(400, 'invalid', 'A report is printed of one record: leave out the earlier versions.');
  const opened = await openBytes(bytes, site, Date.now());
  const { record } = opened;
  if (opened.unreadable) return unreadable(opened, language);
  if (!record) return notWhole(opened.findings, language);
  const printed = await printReport(opened, site.site, wanted, {
    templates: tools.templates,
    pdf: async () => tools.pdf ?? (await loadPdf(...fontFolders(site))),
    pictures: () => picturesFrom(record, pictures),
  });
  if ('why' in printed) return refusal(422, 'invalid', printed.why, opened.findings.filter(stops));
  const { type, ending } = reportTypes[wanted.format];
  const name = wanted.audience === 'record' ? 'report' : wanted.audience;
  return {
    status: 200,
    body: printed.content,
    headers: {
      'content-type': type,
      'content-language': wanted.language ?? site.site.language,
      'content-disposition': `attachment; filename="${name}.${ending}"`,
    },
  };
}

/** A case that was prepared, in the language of the answer where there is one. */
export async function preparedCase(
  sent: SentCase,
  ports: CasePorts,
): Promise<
  | { readonly opened: OpenedCase; readonly site: Site; readonly prepared: PreparedCase }
  | { readonly refused: Reply }
> {
  const whole = await wholeCase(sent, ports);
  if ('refused' in whole) return whole;
  const { language } = ports;
  const site = language ? { ...ports.site.site, language } : ports.site.site;
  const prepared = await whole.prepare(site);
  return prepared
    ? { opened: whole.opened, site, prepared }
    : { refused: notWhole(whole.opened.findings, language) };
}

/** Reads a case with its earlier versions and pictures, or says why it cannot be taken. */
async function wholeCase(
  { record, previous, pictures }: SentCase,
  { site, tools, language }: CasePorts,
): Promise<WholeCase | { readonly refused: Reply }> {
  const opened = await openBytes(record, site, Date.now());
  if (opened.unreadable) return { refused: unreadable(opened, language) };
  if (!opened.record) return { refused: notWhole(opened.findings, language) };
  const read = await picturesFrom(opened.record, pictures);
  const versions: EarlierVersion[] = [];
  for (const bytes of previous) {
    const earlier = await openBytes(bytes, site, Date.now());
    if (!earlier.record || !earlier.assessment)
      return { refused: earlierNotWhole(earlier.findings, language) };
    versions.push({ record: earlier.record, assessment: earlier.assessment });
  }
  const whole = opened.record;
  return {
    opened,
    prepare: async (own, before = []) => {
      const previous = await withSentBefore(whole, versions, before, site);
      return prepareOpened(opened, { ...site, site: own }, tools, { previous, pictures: read });
    },
  };
}

function unreadable({ findings }: CheckedCase, language?: Language): Reply {
  return refusal(400, 'structure', 'This is not a case record that can be read.', findings, {}, language);
}

function notWhole(findings: readonly Finding[], language?: Language): Reply {
  return refusal(
    422,
    'invalid',
    'The record must be readable as a whole first.',
    findings.filter(stops),
    {},
    language,
  );
}

function earlierNotWhole(findings: readonly Finding[], language?: Language): Reply {
  return refusal(
    422,
    'invalid',
    'An earlier version that came with the case must be readable as a whole first: see the findings.',
    findings.filter(stops),
    {},
    language,
  );
}
