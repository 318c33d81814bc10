import { type Finding, finding } from '../../findings/finding.js';
import type { Session } from '../destination/session.js';
import type { EntryDifference } from '../held/compare.js';
import type { EntryPresence } from '../held/reconcile.js';
import type { SentEntry, SourceOf, Submission } from '../request/submission.js';
import { foldIssues, type ServerIssue } from './issues.js';
import type { Verdict } from './verdict.js';

/** What is said, and to whom it is addressed. */
export interface Voice {
  readonly destination: string;
  readonly baseUrl: string;
  readonly sent: readonly SentEntry[];
  readonly sourceOf: SourceOf;
}

/** The voice in which a submission to a destination is spoken of. */
export function voiceOf({ entries, sourceOf }: Submission, { destination }: Session): Voice {
  return { destination: destination.name, baseUrl: destination.baseUrl, sent: entries, sourceOf };
}

/** The finding that tells a person where the submission stands; none when it was accepted. */
export function sayVerdict({ destination }: Voice, verdict: Verdict): Finding[] {
  const status = verdict.status === undefined ? 'no answer' : `HTTP ${verdict.status}`;
  const params = { destination, status };
  const at = 'destination';
  switch (verdict.state) {
    case 'delivered':
      return [];
    case 'partial':
      return [finding('delivery.partial', at, params)];
    case 'outcome-unknown':
      return [
        finding(verdict.reason === 'echoed' ? 'delivery.echoed' : 'delivery.outcome-unknown', at, params),
      ];
    case 'refused':
      return [finding(REFUSALS[verdict.reason] ?? 'delivery.refused', at, params)];
    case 'conflict':
      return [finding(CONFLICTS[verdict.reason] ?? 'delivery.conflict', at, params)];
    case 'throttled':
      return [finding('delivery.throttled', at, { ...params, wait: waitText(verdict.waitMs) })];
    case 'unreachable':
      return [
        finding('delivery.unreachable', at, { destination, cause: CAUSES[verdict.reason] ?? verdict.reason }),
      ];
    case 'destination-paused':
      return [finding(PAUSES[verdict.reason] ?? 'delivery.refused', at, params)];
  }
}

const CONFLICTS: Partial<
  Record<Verdict['reason'], 'delivery.gone' | 'delivery.several-matches' | 'delivery.written-at-once'>
> = {
  gone: 'delivery.gone',
  'several-matches': 'delivery.several-matches',
  'written-at-once': 'delivery.written-at-once',
};

const CAUSES: Partial<Record<Verdict['reason'], string>> = {
  'name-not-found': 'its name is not known to the network',
  'not-connected': 'nothing takes connections there',
  tls: 'no secure connection could be made',
  'token-unavailable': 'its authorisation server gives no token for now',
};

const REFUSALS: Partial<
  Record<Verdict['reason'], 'delivery.redirected' | 'delivery.too-large' | 'delivery.reference-not-found'>
> = {
  redirect: 'delivery.redirected',
  'too-large': 'delivery.too-large',
  'reference-not-found': 'delivery.reference-not-found',
};

const PAUSES: Partial<
  Record<
    Verdict['reason'],
    | 'delivery.unauthorised'
    | 'delivery.forbidden'
    | 'delivery.no-transaction'
    | 'delivery.media-type'
    | 'delivery.certificate'
    | 'delivery.token-refused'
  >
> = {
  unauthorised: 'delivery.unauthorised',
  forbidden: 'delivery.forbidden',
  'not-a-transaction-address': 'delivery.no-transaction',
  'media-type': 'delivery.media-type',
  certificate: 'delivery.certificate',
  'token-refused': 'delivery.token-refused',
};

function waitText(ms: number | undefined): string {
  return ms === undefined ? 'a while' : `${Math.ceil(ms / 1000)} s`;
}

/** What the server said, once for each cause, on the path of the record that it came from, or else on the resource's. */
export function sayIssues(voice: Voice, issues: readonly ServerIssue[]): Finding[] {
  return foldIssues(issues).map(issue => {
    const type = voice.sent.find(({ index }) => index === issue.entry)?.type;
    const resourcePath = issue.elementPath ?? type ?? 'Bundle';
    const path = issue.entry === undefined ? undefined : voice.sourceOf(issue.entry, resourcePath);
    const more =
      issue.more === undefined ? '' : ` (and at ${issue.more} more ${issue.more === 1 ? 'place' : 'places'})`;
    const params = { destination: voice.destination, resource: resourcePath, text: `${issue.text}${more}` };
    return finding('delivery.server-says', path ?? resourcePath, params, { severity: issue.severity });
  });
}

/** Entries whose identifier has several resources at the destination, with their addresses. */
export function saySeveral({ destination, sourceOf }: Voice, presence: readonly EntryPresence[]): Finding[] {
  return presence
    .filter(p => p.state === 'several')
    .map(({ entry, held }) =>
      finding('delivery.several-held', sourceOf(entry.index, entry.type) ?? entry.type, {
        destination,
        resource: entry.type,
        system: entry.criteria?.value.split('|')[0] ?? '',
        count: String(held.length),
        addresses: held.map(h => `${entry.type}/${h.id}`).join(', '),
      }),
    );
}

/** Differences between sent and held: those that a person must look at as errors, the rest as information. */
export function sayDifferences(voice: Voice, differences: readonly EntryDifference[]): Finding[] {
  return differences.map(d => {
    const index = voice.sent.findIndex(entry => entry.fullUrl === d.fullUrl);
    const path = voice.sourceOf(index, d.path) ?? d.path;
    const params = {
      destination: voice.destination,
      element: d.path,
      sent: d.sent ?? 'nothing',
      held: d.held ?? 'nothing',
    };
    const severity = d.alarm
      ? 'error'
      : d.kind === 'digits' || d.kind === 'added'
        ? 'information'
        : 'warning';
    return finding('delivery.held-differs', path, params, { severity });
  });
}

/**
 * What stands at a destination otherwise than in the record, field by field, with the address of the resource.
 *
 * @param how edited: others changed what Casetally wrote; otherwise: it was there already with other content.
 */
export function sayEdits(
  voice: Voice,
  differences: readonly EntryDifference[],
  how: 'edited' | 'otherwise',
): Finding[] {
  return differences.map(d => {
    const index = voice.sent.findIndex(entry => entry.fullUrl === d.fullUrl);
    const params = {
      destination: voice.destination,
      address: d.address === undefined ? voice.baseUrl : `${voice.baseUrl}/${d.address}`,
      element: d.path,
      sent: d.sent ?? 'nothing',
      held: d.held ?? 'nothing',
    };
    const code = how === 'edited' ? 'delivery.edited-there' : 'delivery.held-otherwise';
    const severity = d.kind === 'digits' || d.kind === 'added' ? { severity: 'information' as const } : {};
    return finding(code, voice.sourceOf(index, d.path) ?? d.path, params, how === 'edited' ? {} : severity);
  });
}
