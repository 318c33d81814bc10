import { z } from 'zod';
import { CasetallyError } from '../../findings/errors.js';
import { recallLineOf } from '../../pipeline/register/recall-lines.js';
import { isCalendarDate } from '../../record/time.js';
import type { PlanFilter, RecallLine, Register, UseSummary } from '../../register/store/register.js';
import { line } from './one-line.js';
import { type Reply, refusal, reply } from './reply.js';

/** Most rows of one answer. */
const MAX_LISTED = 500;
/** Lines of one recall: looking them up holds up whoever else asks. */
const MAX_LINES = 500;

const no = (text: string) => refusal(400, 'invalid', text);

/** Persons go by their digest within the register alone. */
const plain = ({ person: _person, ...use }: UseSummary) => use;

export const insideAsked = z.strictObject({
  patient: line(200),
  system: line(200).optional(),
  all: z.boolean().optional(),
});

/** POST /register/inside: what is inside a patient. The number is in the body: addresses are written down everywhere. */
export async function insideHandler(body: unknown, register: Register): Promise<Reply> {
  const read = insideAsked.safeParse(body);
  if (!read.success)
    return no(
      'Send {"patient": number}, with "system" where it is not the only one, and "all": true for what came out too.',
    );
  const { patient, system, all = false } = read.data;
  const people = await register.people(patient, system);
  const patients = [];
  for (const { id, numbers } of people.slice(0, MAX_LISTED)) {
    const uses = await register.usesOf(id);
    patients.push({
      numbers,
      uses: uses.filter(({ state }) => all || state === 'inside' || state === 'unknown').map(plain),
    });
  }
  return { ...reply(200, { patients }), about: people.slice(0, MAX_LISTED).map(({ id }) => id) };
}

export const historyAsked = z.strictObject({ use: line(200) });

/** POST /register/history: every event of one device. */
export async function historyHandler(body: unknown, register: Register): Promise<Reply> {
  const read = historyAsked.safeParse(body);
  if (!read.success) return no('Send {"use": "CASE/DEVICE"}.');
  const use = await register.use(read.data.use);
  return use
    ? { ...reply(200, plain(use)), about: [use.person] }
    : refusal(404, 'not-found', 'The register has no such device.');
}

type Query = Readonly<Record<string, unknown>>;

const listAsked = z.strictObject({
  on: z.string().refine(isCalendarDate),
  within: z.coerce.number().int().min(0).max(3_650).default(14),
  kind: line(200).optional(),
  by: line(200).optional(),
});

/** What a list asks for, or why it is refused; `on` is today unless it is said. */
function asked(query: Query, clock: () => number): z.output<typeof listAsked> | Reply {
  const today = new Date(clock()).toISOString().slice(0, 10);
  const read = listAsked.safeParse({ on: today, ...query });
  return read.success ? read.data : no('Write ?on=YYYY-MM-DD, within=14, kind= and by=, or nothing.');
}

/** GET /register/due and /register/overdue: what is to be done about devices inside. */
export async function plansHandler(
  what: 'due' | 'overdue',
  query: Query,
  register: Register,
  clock: () => number,
): Promise<Reply> {
  const list = asked(query, clock);
  if ('status' in list) return list;
  const { on, within, kind, by } = list;
  const to = new Date(Date.parse(`${on}T00:00:00Z`) + within * 86_400_000).toISOString().slice(0, 10);
  const filter: PlanFilter = {
    ...(what === 'due' ? { from: on, to } : { overdueOn: on }),
    ...(kind !== undefined && { kind }),
    ...(by !== undefined && { by }),
  };
  const items = await register.plans({ ...filter, limit: MAX_LISTED });
  const count = await register.planCount(filter);
  return reply(200, { on, count, items: items.map(({ use, ...plan }) => ({ ...plan, use: plain(use) })) });
}

/** GET /register/unreviewed: retrievable filters inside that nobody plans to review. */
export async function unreviewedHandler(
  query: Query,
  register: Register,
  clock: () => number,
): Promise<Reply> {
  const list = asked(query, clock);
  if ('status' in list) return list;
  const items = await register.unreviewed(list.on);
  return reply(200, { on: list.on, count: items.length, items: items.slice(0, MAX_LISTED).map(plain) });
}

/** GET /register/unlinked: what a person has to decide. */
export async function unlinkedHandler(register: Register): Promise<Reply> {
  const [open, gaps, sameSerials] = [
    await register.unlinked(),
    await register.gaps(),
    await register.sameSerials(),
  ];
  const named = <T extends { readonly person: string }>(all: readonly T[]) =>
    all.slice(0, MAX_LISTED).map(({ person: _person, ...one }) => one);
  return reply(200, {
    count: { unlinked: open.length, gaps: gaps.length, sameSerials: sameSerials.length },
    unlinked: named(open),
    gaps: named(gaps),
    sameSerials: sameSerials.slice(0, MAX_LISTED),
  });
}

export const recallAsked = z.strictObject({
  lines: z.array(z.record(z.string(), z.unknown())).min(1).max(MAX_LINES),
  contacts: z.boolean().optional(),
});

/** POST /register/recall: who carries, or carried, what lines name. Patients are named where that is asked for alone. */
export async function recallHandler(body: unknown, register: Register): Promise<Reply> {
  const read = recallAsked.safeParse(body);
  if (!read.success)
    return no(
      `Send {"lines": [{"di", "lot", "serial", "expiresFrom", "expiresTo"}]}, ${MAX_LINES} lines at most.`,
    );
  let lines: RecallLine[];
  try {
    lines = read.data.lines.map((row, n) => recallLineOf(n + 1, row, 'lines'));
  } catch (error) {
    if (error instanceof CasetallyError && error.code === 'usage') return no(error.message);
    throw error;
  }
  const hits = await register.recall(lines);
  const shown = [];
  for (const hit of hits.slice(0, MAX_LISTED)) {
    const patient = read.data.contacts ? (await register.person(hit.use.person))?.numbers : undefined;
    shown.push({ ...hit, use: plain(hit.use), ...(patient && { patient }) });
  }
  const answer = reply(200, {
    lines: lines.length,
    count: hits.length,
    hits: shown,
    insideWithoutIdentifier: await register.insideWithoutIdentifier(),
  });
  const people = hits.slice(0, MAX_LISTED).map(({ use }) => use.person);
  return { ...answer, about: [...new Set(people)] };
}
