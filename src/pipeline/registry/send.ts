import type { Finding } from '../../findings/finding.js';
import { finding } from '../../findings/finding.js';
import { personId } from '../../register/store/rows.js';
import { pathOf } from '../../registry/definition/agreed.js';
import type { RegistryDefinition } from '../../registry/definition/schema.js';
import { sha256 } from '../../registry/digest.js';
import { groupsOf } from '../../registry/disclosure/coarser.js';
import { batchText, mediaTypeOf } from '../../registry/format/batch.js';
import { type CasePlan, planCase } from '../../registry/plan.js';
import {
  type BatchRow,
  deviceText,
  type EntryName,
  type Line,
  type NewLine,
  type Withheld,
} from '../../registry/store/submissions.js';
import { fitElements, stepOfCase } from './alike.js';
import type { RegistryToBuild, TakenCase } from './collect.js';
import { type BatchFate, putBatch, type RegistryWork } from './settle.js';

/** What sending needs beyond what settling does. */
export interface SendWork extends RegistryWork {
  readonly toBuild: RegistryToBuild;
  /** SHA-256 of the definition. */
  readonly definitionDigest: string;
  readonly newId: () => string;
  /** Name and version of this software. */
  readonly software: string;
  /** How long a registry may not find yet what it accepted, in milliseconds. */
  readonly settleMs: number;
}

/** What is to go out, and what there is to say of each case; findings go by the file of the case. */
export interface Planned {
  readonly lines: readonly NewLine[];
  readonly withheld: readonly Omit<Withheld, 'number'>[];
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  /** Lines that go out again without having changed, because an answer left them out or refused them. */
  readonly again: readonly NewLine[];
}

/** Which lines that are unchanged go out again. */
export interface Resend {
  readonly missing: boolean;
  readonly refused: boolean;
}

/** Works out what the registry is to hear of cases, from what it was sent before. Nothing is sent. */
export async function planCases(
  cases: Iterable<TakenCase>,
  work: Pick<SendWork, 'registry' | 'definition' | 'submissions' | 'clock' | 'settleMs'>,
  resend: Resend = { missing: false, refused: false },
): Promise<Planned> {
  const { registry, definition, submissions } = work;
  const counts = ({ fate }: TakenCase) => fate !== 'superseded' && fate !== 'waiting';
  const unsettled = await unsettledBatches(work);
  const { alike } = definition;
  if (alike)
    for (const one of cases) {
      const of = counts(one) ? groupsOf(fitElements(one), alike) : [];
      if (of.length > 0 && one.number) await submissions.setAlike(registry, one.id, personId(one.number), of);
    }
  const [lines, again]: [NewLine[], NewLine[]] = [[], []];
  const withheld: Omit<Withheld, 'number'>[] = [];
  const findings = new Map<string, Finding[]>();
  for (const one of cases) {
    if (!counts(one)) continue;
    const groups = alike ? groupsOf(fitElements(one), alike) : [];
    const { step, findings: said } = stepOfCase(one, alike, await submissions.alike(registry, groups));
    const told = [...said];
    if (said.length > 0) findings.set(one.file, told);
    for (const { device, codes } of one.entries)
      if (codes.length > 0) withheld.push({ case: one.id, device, codes: [...new Set(codes)] });
    // What nothing is known of, as its record has errors, is left as it was sent.
    if (one.entries.length === 0 && one.fate === 'held back') {
      withheld.push({ case: one.id, device: '', codes: ['registry.held-back'] });
      continue;
    }
    if (step === undefined) {
      withheld.push({ case: one.id, device: '', codes: ['registry.too-few-alike'] });
      continue;
    }
    const sent = await submissions.linesOfCase(registry, one.id);
    const number = one.number ?? sent[0]?.number;
    if (!number) continue;
    const present = { entries: presentOf(one), caseVersion: one.version, number, step };
    const plan = planCase(present, sent, unsettled);
    lines.push(...plan.lines);
    if (resend.missing) again.push(...plan.missing);
    if (resend.refused) again.push(...plan.refused);
    const more = planFindings(plan, resend, definition);
    if (more.length > 0) findings.set(one.file, [...told, ...more]);
  }
  return { lines, again, withheld, findings };
}

/** Batches whose entries the registry may not find yet. */
async function unsettledBatches({
  registry,
  submissions,
  clock,
  settleMs,
}: Pick<SendWork, 'registry' | 'submissions' | 'clock' | 'settleMs'>): Promise<ReadonlySet<string>> {
  if (settleMs === 0) return new Set();
  const since = clock() - settleMs;
  const answered = await submissions.batches(registry, ['answered']);
  return new Set(answered.flatMap(({ id, answeredAt = 0 }) => (answeredAt > since ? [id] : [])));
}

/** A counted device may have several entries: all but the first are told apart by what happened. */
function presentOf(one: TakenCase) {
  const seen = new Set<string>();
  return one.entries.map(({ device, part, elements, fit }) => {
    const plain = JSON.stringify([device, part]);
    const name: EntryName = {
      ...{ case: one.id, device },
      ...(part !== undefined && { part }),
      ...(seen.has(plain) && { action: elements.action }),
    };
    seen.add(plain);
    return { name, elements, fit };
  });
}

function planFindings(
  { waiting, refused, missing }: CasePlan,
  resend: Resend,
  { codes }: RegistryDefinition,
): Finding[] {
  const about = ({ name }: Line) => ({ case: name.case, device: deviceText(name) });
  const path = ({ name, code }: Line) =>
    pathOf(code === undefined ? undefined : codes[code]?.element, name.device);
  return [
    ...waiting.map(line => finding('registry.waits-for-answer', path(line), about(line))),
    ...(resend.refused ? [] : refused).map(line =>
      finding('registry.not-mended', path(line), { ...about(line), code: line.code ?? '-' }),
    ),
    ...(resend.missing ? [] : missing).map(line => finding('registry.not-answered', path(line), about(line))),
  ];
}

/** Makes batches of lines, keeps them, and gives each to the registry. The order of cases makes no difference. */
export async function sendLines(planned: Planned, work: SendWork): Promise<readonly BatchFate[]> {
  const all = [...planned.lines, ...planned.again].toSorted((a, b) =>
    a.elements.entry < b.elements.entry ? -1 : 1,
  );
  const made: BatchRow[] = [];
  const { maxEntries } = work.definition;
  for (let at = 0; at < all.length; at += maxEntries)
    made.push(await makeBatch(all.slice(at, at + maxEntries), at === 0 ? planned.withheld : [], work));
  const fates: BatchFate[] = [];
  for (const batch of made) fates.push(await putBatch(batch, work));
  return fates;
}

async function makeBatch(
  lines: readonly NewLine[],
  heldBack: readonly Omit<Withheld, 'number'>[],
  work: SendWork,
): Promise<BatchRow> {
  const { registry, definition, submissions, toBuild, clock } = work;
  const withheld = heldBack.map((one, n) => ({ ...one, number: n + 1 }));
  const entries = lines.map(({ elements }) => elements);
  const content = batchText(entries, definition, toBuild.options);
  const made = clock();
  const id = work.newId();
  const dates = entries.map(({ date }) => date).sort();
  const [from, to] = [dates[0], dates.at(-1)];
  const [unit] = entries.flatMap(one => one.unit ?? []);
  const batch: BatchRow = {
    ...{ registry, id, state: 'made', madeAt: made },
    manifest: {
      ...{ registry, batch: id },
      definition: { name: definition.name, version: definition.version, sha256: work.definitionDigest },
      sender: { software: work.software, ...(unit !== undefined && { unit }) },
      made: new Date(made).toISOString(),
      format: mediaTypeOf(definition),
      entries: entries.length,
      cases: new Set(entries.map(one => one.case)).size,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      sha256: sha256(content),
      keyId: toBuild.key.id,
      withheld: withheld.map(({ number }) => number),
    },
  };
  await submissions.addBatch(batch, content, lines, withheld);
  return batch;
}
