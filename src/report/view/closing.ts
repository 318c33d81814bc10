import { type Finding, messageOf } from '../../findings/finding.js';
import type { ChangedFact } from '../../record/changes/compare.js';
import { sourcedValues } from '../../record/sourced.js';
import type { ReportOptions } from '../options.js';
import type { Printer } from '../print/printer.js';
import { absent, detail, fact, facts, said, section, table } from './blocks.js';
import { endingNotices } from './ending.js';
import { foundNotice } from './found.js';
import { insideNotice } from './inside.js';
import type { Fact, Section, Status, TableBlock } from './model.js';
import { whereaboutsNotices } from './whereabouts.js';

/** Whom to call: the record's own words, else the department's line. */
export function contact(p: Printer, fallback: string | undefined): Fact {
  const own = p.record.advice?.contact;
  const lines = [own ?? fallback, own === undefined ? departmentLine(p) : undefined];
  const stated = said(...lines);
  return fact(p, 'contact', stated.lines.length > 0 ? stated : absent(p));
}

function departmentLine({ record }: Printer): string | undefined {
  const { organization } = record.case;
  return organization?.phone === undefined ? undefined : `${organization.name} ${organization.phone}`;
}

export function advice(p: Printer, reader: 'ward' | 'referrer' | 'patient'): Fact {
  const label = ({ ward: 'adviceWard', referrer: 'adviceReferrer', patient: 'advicePatient' } as const)[
    reader
  ];
  const lines = p.record.advice?.[reader] ?? [];
  return fact(p, label, lines.length > 0 ? said(...lines) : absent(p));
}

export function adviceSection(p: Printer, fallback: string | undefined): Section {
  return section(p, 'advice', [
    facts(p, undefined, [
      advice(p, 'ward'),
      advice(p, 'referrer'),
      advice(p, 'patient'),
      contact(p, fallback),
    ]),
  ]);
}

type Acknowledged = NonNullable<Printer['record']['acknowledged']>[number];

/** The findings that this acknowledgement was applied to. */
function spokenOf(findings: readonly Finding[], { finding, reason }: Acknowledged): readonly Finding[] {
  return findings.filter(f => f.code === finding && f.acknowledged?.reason === reason);
}

export function warningsSection(p: Printer): Section {
  const list = p.record.acknowledged ?? [];
  if (list.length === 0)
    return section(p, 'warnings', [
      facts(p, undefined, [fact(p, 'warnings', { lines: [p.say('absent.none')], mark: 'none' })]),
    ]);
  return section(p, 'warnings', [
    table(
      p,
      'section.warnings',
      ['warning', 'accepted', 'acceptedBy'],
      list.map((entry, index) => {
        const about = entry.about ?? p.say('warning.everywhere');
        const messages = spokenOf(p.assessment.findings, entry).map(f => messageOf(f, p.language));
        const [message] = messages;
        const head =
          message === undefined
            ? [p.say('warning.codeOnly', { code: entry.finding, about })]
            : [p.say('warning.code', { message, code: entry.finding, about }), ...messages.slice(1)];
        return {
          key: `acknowledged[${index}]`,
          cells: [head, entry.reason, entry.by && p.person(entry.by)],
        };
      }),
      true,
    ),
  ]);
}

/** What a reader must know of the report before its content. */
function notices(p: Printer): string[] {
  const { report, case: c } = p.record;
  const { change } = report;
  const follows = () => {
    if (change?.of === undefined) return p.say('change.noticeNoVersion');
    const version = String(report.version ?? p.say('absent.notRecorded'));
    return p.say('change.notice', { version, of: change.of });
  };
  const why = () => (change === undefined ? [] : [p.say('change.why', { why: change.why })]);
  const state = {
    final: () => [],
    preliminary: () => [p.say('notice.preliminary')],
    withdrawn: () => [p.say('notice.withdrawn'), ...why()],
    amended: () => [[p.say('notice.amended'), follows()].join(' '), ...why()],
    appended: () => [
      [p.say('notice.appended'), ...(change?.of === undefined ? [] : [follows()])].join(' '),
      ...why(),
    ],
  }[report.status]();
  const reason = c.reason?.text ?? p.say('absent.notRecorded');
  return [
    ...foundNotice(p, 'notice.allergyFound'),
    ...state,
    ...(c.status === 'completed' ? [] : [p.say(`notice.${c.status}`, { reason })]),
    ...endingNotices(p),
    ...whereaboutsNotices(p),
    ...insideNotice(p),
  ];
}

/** `Amended, version 2`. */
function statusLine(p: Printer): string {
  const { status, version } = p.record.report;
  const label = p.say(`status.${status}`);
  return version === undefined ? label : `${label}, ${p.say('version', { version: String(version) })}`;
}

export function statusFact(p: Printer): Fact {
  return fact(p, 'status', said(statusLine(p)));
}

export function signatureFact(p: Printer): Fact {
  const { author, signedAt } = p.record.report;
  if (!signedAt) return fact(p, 'signature', { lines: [p.say('notSigned')], mark: 'none' });
  const signed = p.say('signedBy', { person: p.person(author), time: p.fullMoment(signedAt) });
  return fact(p, 'signature', said(signed));
}

export function statusOf(p: Printer): Status {
  const { status } = p.record.report;
  return {
    key: status,
    label: p.say(`status.${status}`),
    line: statusLine(p),
    notices: notices(p),
    signature: signatureFact(p).lines.join(' '),
    caution: status === 'preliminary' || status === 'withdrawn',
  };
}

export function signatureSection(p: Printer, { changes, digest }: ReportOptions): Section {
  const { status, version, author, signedAt, change } = p.record.report;
  return section(p, 'signature', [
    facts(p, undefined, [
      fact(p, 'status', said(p.say(`status.${status}`))),
      fact(p, 'version', version === undefined ? absent(p) : said(String(version))),
      fact(p, 'author', said(p.person(author))),
      fact(
        p,
        'signedAt',
        signedAt ? said(p.fullMoment(signedAt)) : { lines: [p.say('notSigned')], mark: 'none' },
      ),
      ...detail(p, 'changeOf', change?.of),
      ...detail(p, 'change', change?.why),
      ...detail(p, 'changeBy', change?.by && p.person(change.by)),
      ...detail(p, 'changeAt', change?.at && p.fullMoment(change.at)),
      ...detail(p, 'digest', digest),
    ]),
    ...(changes && changes.length > 0 ? [changesTable(p, changes)] : []),
    ...sourcesTables(p),
  ]);
}

/** Which values nobody typed, and what they were taken from; nothing where all were typed. */
function sourcesTables(p: Printer): TableBlock[] {
  const sourced = sourcedValues(p.record);
  if (sourced.length === 0) return [];
  const rows = sourced.map(({ path, source, at, places }) => ({
    key: path,
    cells: [p.text({ sentence: source }), p.fullMoment(at), places.map(place => p.text(place))],
  }));
  return [table(p, 'sources.caption', ['source', 'sourceAt', 'sourced'], rows, true)];
}

/** Each fact that differs from the version before: the value then and now, and for longer text the words struck and added. */
function changesTable(p: Printer, changes: readonly ChangedFact[]): TableBlock {
  const runs = (change: ChangedFact, kind: 'struck' | 'added') =>
    (change.words ?? []).filter(run => run.kind === kind).map(run => `“${run.text.trim()}”`);
  const line = (key: 'changes.struck' | 'changes.added', words: readonly string[]) =>
    words.length === 0 ? [] : [p.say(key, { words: words.join(', ') })];
  return table(
    p,
    'changes.caption',
    ['changedFact', 'before', 'now'],
    changes.map(change => ({
      key: change.path,
      cells: [
        p.text(change.what),
        [
          change.before === undefined ? p.say('absent.none') : p.text(change.before),
          ...line('changes.struck', runs(change, 'struck')),
        ],
        [
          change.after === undefined ? p.say('absent.none') : p.text(change.after),
          ...line('changes.added', runs(change, 'added')),
        ],
      ],
    })),
    true,
  );
}
