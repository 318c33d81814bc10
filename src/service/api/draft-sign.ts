import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { compareNames } from '../../delivery/patient/names.js';
import { moveDraft } from '../../drafts/save.js';
import type { Draft, DraftSignature, DraftState } from '../../drafts/store/drafts.js';
import { isTimeZone } from '../../record/time.js';
import { treeIn, valueAt } from '../../record/tree.js';
import { baseOf, byOf, etagOf, noDraft } from './draft-handlers.js';
import type { Caller } from './guard.js';
import type { ServicePorts } from './handlers.js';
import { line } from './one-line.js';
import { bodyText, type Reply, refusal, reply } from './reply.js';
import type { Asked } from './route.js';
import { inLanguage } from './wanted.js';

const NO_DRAFTS = () => refusal(404, 'not-found', 'This service keeps no drafts.');
const MINUTE = 60_000;

const key = z.string().trim().min(1).max(100);
export const closing = z.strictObject({ by: line(100).optional() });
export const signing = closing.extend({ author: key, to: z.string().max(200).optional() });

/** What of the answer about a draft that is to be closed or signed the handlers go on with. */
const answered = z.looseObject({
  ready: z.boolean(),
  text: z.string().optional(),
  author: z.object({ key: z.string(), name: z.string(), role: z.string() }).optional(),
  goesTo: z.array(z.string()),
});

type Ports = Omit<ServicePorts, 'drafts'> & { readonly drafts: NonNullable<ServicePorts['drafts']> };

/** Whether a draft can be closed or signed, as the threads say it. */
async function readiness(
  { cases }: Ports,
  text: string,
  asked: Asked,
  sign?: { readonly author: string; readonly at: string },
): Promise<{ readonly answer: Reply; readonly found?: z.output<typeof answered> }> {
  const body = new TextEncoder().encode(text);
  const wanted = inLanguage(asked, { do: 'ready' as const, ...(sign && { sign }) });
  if ('status' in wanted) return { answer: wanted };
  const answer = await cases.ask(
    { body, type: 'application/yaml', maxBytes: body.byteLength, wanted },
    new AbortController().signal,
  );
  if (answer.status !== 200) return { answer };
  return { answer, found: answered.parse(JSON.parse(bodyText(answer))) };
}

const openStates: readonly DraftState[] = ['open', 'closed'];

/** The draft that a request is about, at the version that it was made for. */
async function draftFor(asked: Asked, { drafts }: Ports): Promise<Draft | Reply> {
  const base = baseOf(asked);
  if (typeof base !== 'number') return base;
  const draft = await drafts.store.get(asked.params['id'] ?? '');
  if (!draft) return noDraft();
  return draft.version === base ? draft : changedMeanwhile(draft.version);
}

const changedMeanwhile = (version: number): Reply => ({
  ...refusal(412, 'conflict', 'The draft was changed meanwhile: look at it first.'),
  headers: { etag: etagOf(version) },
});

const notSo = (state: DraftState, what: string) =>
  refusal(409, 'conflict', `The draft is ${state} and is not ${what}.`);

/** Moves a draft, and tells whoever has it open. */
async function moved(
  { drafts, clock }: Ports,
  draft: Draft,
  state: DraftState,
  by: string,
  more: Parameters<typeof moveDraft>[3] = {},
): Promise<{ readonly version: number } | Reply> {
  const saving = { id: draft.id, base: draft.version, by, at: clock() };
  const done = await moveDraft(drafts.store, saving, state, more);
  if (done.kind === 'missing') return noDraft();
  if (done.kind === 'stale') return changedMeanwhile(done.version);
  if (done.kind === 'not so') return notSo(done.state, state);
  void drafts.changes.changed(draft.id);
  return { version: done.version };
}

const answer = (draft: Draft, version: number, person: string, more: object): Reply => ({
  ...reply(200, { id: draft.id, version, ...more }),
  headers: { etag: etagOf(version) },
  noted: { drafts: [draft.id], person },
});

type Handler = (asked: Asked, ports: ServicePorts) => Promise<Reply>;
const withDrafts =
  (handler: (asked: Asked, ports: Ports) => Promise<Reply>): Handler =>
  async (asked, ports) =>
    ports.drafts ? handler(asked, { ...ports, drafts: ports.drafts }) : NO_DRAFTS();

/** POST /drafts/:id/close: says that everything is entered. Where an error stands it is refused, with what stands. */
export const closeHandler = withDrafts(async (asked, ports) => {
  const draft = await draftFor(asked, ports);
  if ('status' in draft) return draft;
  const read = closing.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!who) return refusal(400, 'invalid', 'Send {"by": who}: it is kept with the draft.');
  if (draft.state !== 'open') return notSo(draft.state, 'closed');
  const { answer: told, found } = await readiness(ports, draft.text, asked);
  if (!found) return told;
  if (!found.ready) return { ...told, status: 422, noted: { drafts: [draft.id], person: who.person } };
  const done = await moved(ports, draft, 'closed', who.by);
  return 'status' in done ? done : answer(draft, done.version, who.person, { state: 'closed' });
});

/** POST /drafts/:id/reopen: goes on entering what was closed; nothing that was signed. */
export const reopenHandler = withDrafts(async (asked, ports) => {
  const draft = await draftFor(asked, ports);
  if ('status' in draft) return draft;
  const read = closing.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!who) return refusal(400, 'invalid', 'Send {"by": who}: it is kept with the draft.');
  if (draft.state !== 'closed') return notSo(draft.state, 'closed');
  const done = await moved(ports, draft, 'open', who.by);
  return 'status' in done ? done : answer(draft, done.version, who.person, { state: 'open' });
});

/** POST /drafts/:id/to-sign: what is said before signing. Changes nothing. */
export const toSignHandler = withDrafts(async (asked, ports) => {
  const draft = await ports.drafts.store.get(asked.params['id'] ?? '');
  if (!draft) return noDraft();
  const read = signing.partial({ author: true }).safeParse(asked.body);
  if (!read.success) return refusal(400, 'invalid', 'Send {"author": team key of who signs}, or {}.');
  const author = read.data.author;
  const at = timeAt(ports, draft.text);
  const { answer: told } = await readiness(ports, draft.text, asked, author ? { author, at } : undefined);
  return { ...told, noted: { drafts: [draft.id] } };
});

/**
 * POST /drafts/:id/sign: puts the signature of the person who asks into the record. It leaves once the time is over in
 * which that can be taken back.
 */
export const signHandler = withDrafts(async (asked, ports) => {
  const draft = await draftFor(asked, ports);
  if ('status' in draft) return draft;
  const read = signing.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!read.success || !who)
    return refusal(400, 'invalid', 'Send {"author": team key of who signs, "by": their name}.');
  if (!openStates.includes(draft.state)) return notSo(draft.state, 'signed');
  const now = ports.clock();
  const stale = notFresh(asked.caller, read.data.by, now);
  if (stale) return stale;
  const { author, to } = read.data;
  const { destinations, drafts } = ports.site.site;
  if (to !== undefined && !Object.hasOwn(destinations, to))
    return refusal(400, 'invalid', 'The site configuration has no destination of that name.');
  const at = timeAt(ports, draft.text);
  const { answer: told, found } = await readiness(ports, draft.text, asked, { author, at });
  const noted = { drafts: [draft.id], person: who.person };
  if (!found) return { ...told, noted };
  if (!found.ready) return { ...told, status: 422, noted };
  const names = found.author && compareNames(found.author.name, who.person);
  if (names !== 'same' && names !== 'near')
    return refusal(
      403,
      'forbidden',
      'The record names somebody else under that key of the team: a report is signed by its author alone.',
    );
  if (to === undefined && found.goesTo.length === 0)
    return refusal(409, 'conflict', 'The case goes nowhere by itself: choose a destination ("to").');
  const signature: DraftSignature = {
    ...{ by: who.by, verified: asked.caller.person?.verified !== undefined, author },
    of: draft.version,
    leavesAt: now + drafts.graceMinutes * MINUTE,
    ...(to !== undefined && { to }),
  };
  const done = await moved(ports, draft, 'signed', who.by, { text: found.text ?? draft.text, signature });
  if ('status' in done) return done;
  return answer(draft, done.version, who.person, {
    ...{ state: 'signed', by: who.by, verified: signature.verified },
    leavesAt: new Date(signature.leavesAt).toISOString(),
    goesTo: to === undefined ? found.goesTo : [to],
  });
});

/** POST /drafts/:id/take-back: takes a signature out again, while the case has not left. */
export const takeBackHandler = withDrafts(async (asked, ports) => {
  const draft = await draftFor(asked, ports);
  if ('status' in draft) return draft;
  const read = closing.safeParse(asked.body);
  const who = read.success ? byOf(read.data.by, asked.caller) : undefined;
  if (!who) return refusal(400, 'invalid', 'Send {"by": who}: it is kept with the draft.');
  if (draft.state !== 'signed') return notSo(draft.state, 'signed');
  const [last] = await ports.drafts.store.versions(draft.id, draft.version - 1);
  const of = last?.signature?.of;
  const text = of === undefined ? undefined : await ports.drafts.store.textOf(draft.id, of);
  const done = await moved(ports, draft, 'open', who.by, text === undefined ? {} : { text });
  return 'status' in done ? done : answer(draft, done.version, who.person, { state: 'open' });
});

/**
 * Whoever signed in at a provider shows it again; whoever typed a name on this machine types it again. A name that a
 * program sends stands beside the name of its token.
 */
function notFresh({ person, freshUntil }: Caller, typed: string | undefined, now: number): Reply | undefined {
  if (!person) return undefined;
  if (person.verified)
    return freshUntil !== undefined && freshUntil > now
      ? undefined
      : refusal(403, 'login', 'Sign in afresh first (/sign-in?fresh=yes): signing asks who it is just now.');
  return typed === person.name
    ? undefined
    : refusal(403, 'login', 'Type your name again ("by"), as you typed it to sign in.');
}

/** Now, in the zone of the case, to the second. */
function timeAt({ clock, site }: Ports, text: string): string {
  const own = valueAt(treeIn(text), ['case', 'timeZone']);
  const zone = typeof own === 'string' && isTimeZone(own) ? own : (site.site.timeZone ?? 'UTC');
  return Temporal.Instant.fromEpochMilliseconds(clock())
    .toZonedDateTimeISO(zone)
    .toString({ smallestUnit: 'second', timeZoneName: 'never' });
}
