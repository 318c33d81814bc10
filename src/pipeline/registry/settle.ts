import type { Finding } from '../../findings/finding.js';
import { readAnswer } from '../../registry/answer/read.js';
import { type CaseFinding, reconcile } from '../../registry/answer/reconcile.js';
import type { RegistryDefinition } from '../../registry/definition/schema.js';
import { sha256 } from '../../registry/digest.js';
import type { BatchRow, Submissions, Verdict } from '../../registry/store/submissions.js';
import type { Transport } from './transport/transport.js';

/** What giving batches to a registry, and reading its answers, needs. */
export interface RegistryWork {
  readonly registry: string;
  readonly definition: RegistryDefinition;
  readonly submissions: Submissions;
  readonly transport: Transport;
  readonly clock: () => number;
}

/** What became of a batch. */
export interface BatchFate {
  readonly batch: string;
  readonly entries: number;
  /** `read before`: an answer that says nothing new. */
  readonly fate: 'sent' | 'answered' | 'not sent' | 'refused' | 'unknown' | 'read before';
  /** Why it did not arrive, or why that is not known. */
  readonly reason?: string;
  /** Where its answer came from. */
  readonly from?: string;
  readonly verdicts: Readonly<Record<Verdict['state'], number>>;
  readonly findings: readonly Finding[];
  readonly cases: readonly CaseFinding[];
}

const NONE = { accepted: 0, duplicate: 0, refused: 0, missing: 0 };

/** Gives a batch to the registry. It is on record that it may have gone out before a byte of it does. */
export async function putBatch(batch: BatchRow, work: RegistryWork): Promise<BatchFate> {
  const { registry, submissions, transport, clock } = work;
  const content = await submissions.content(registry, batch.id);
  await submissions.setBatch(registry, batch.id, { state: 'sending', at: clock() });
  const outcome = await transport.put(batch, content);
  switch (outcome.kind) {
    case 'answered':
      return takeAnswer(batch, outcome.text, work);
    case 'sent':
      await submissions.setBatch(registry, batch.id, { state: 'sent', at: clock() });
      return fateOf(batch, 'sent');
    case 'unknown':
      await submissions.setBatch(registry, batch.id, {
        state: 'sending',
        at: clock(),
        reason: outcome.reason,
      });
      return { ...fateOf(batch, 'unknown'), reason: outcome.reason };
    case 'not sent':
    case 'refused':
      await submissions.setBatch(registry, batch.id, { state: 'made', at: clock(), reason: outcome.reason });
      return { ...fateOf(batch, outcome.kind), reason: outcome.reason };
  }
}

/**
 * Finds out what became of batches whose sending was cut off, and gives those to the registry that never arrived there.
 * One whose fate stays unknown is not sent again.
 */
export async function settleBatches(work: RegistryWork): Promise<readonly BatchFate[]> {
  const { registry, submissions, transport, clock } = work;
  const fates: BatchFate[] = [];
  for (const batch of await submissions.batches(registry, ['made', 'sending'])) {
    if (batch.state === 'made') {
      fates.push(await putBatch(batch, work));
      continue;
    }
    const lines = await submissions.lines(registry, batch.id);
    const asked = await transport.ask(batch, lines);
    if (asked.kind === 'answered') fates.push(await takeAnswer(batch, asked.text, work));
    else if (asked.kind === 'not arrived') fates.push(await putBatch(batch, work));
    else if (asked.kind === 'sent') {
      await submissions.setBatch(registry, batch.id, { state: 'sent', at: clock() });
      fates.push(fateOf(batch, 'sent'));
    } else if (asked.kind === 'held') {
      const verdicts = lines.map(({ name, version }): Verdict => ({ name, version, state: 'accepted' }));
      const text = JSON.stringify({ heldBy: 'the registry, as it was asked', entries: lines.length });
      await submissions.setAnswer(registry, batch.id, {
        ...{ text, verdicts, at: clock() },
        digest: sha256(`${batch.id} ${text}`),
      });
      fates.push({ ...fateOf(batch, 'answered'), verdicts: { ...NONE, accepted: lines.length } });
    } else fates.push({ ...fateOf(batch, 'unknown'), reason: asked.reason });
  }
  return fates;
}

/** Reads an answer, and keeps what it says of each line. The same answer once more changes nothing. */
export async function takeAnswer(
  batch: BatchRow,
  text: string,
  work: RegistryWork,
  from?: string,
): Promise<BatchFate> {
  const { registry, submissions, definition, clock } = work;
  const digest = sha256(`${batch.id} ${text}`);
  const where = from === undefined ? {} : { from };
  if (await submissions.hasAnswer(registry, digest)) return { ...fateOf(batch, 'read before'), ...where };
  const lines = await submissions.lines(registry, batch.id);
  const sent = lines.map(({ elements, version }) => ({ entry: elements.entry, version }));
  const answer = readAnswer(text, definition.answers, sent);
  const { verdicts, findings, cases } = reconcile(
    answer,
    { id: batch.id, sha256: batch.manifest.sha256, lines },
    definition,
  );
  // With what it leaves open the batch stays as it stands: one that was cut off is asked for again.
  await submissions.setAnswer(registry, batch.id, { text, digest, at: clock(), verdicts });
  const counts = { ...NONE };
  for (const { state } of verdicts) counts[state] += 1;
  return { ...fateOf(batch, 'answered'), ...where, verdicts: counts, findings, cases };
}

const fateOf = ({ id, manifest }: BatchRow, fate: BatchFate['fate']): BatchFate => ({
  ...{ batch: id, entries: manifest.entries, fate },
  ...{ verdicts: NONE, findings: [], cases: [] },
});

/** Reads every answer that lies ready for a batch. Those about no batch of the registry are named. */
export async function readAnswers(
  work: RegistryWork,
): Promise<{ readonly fates: readonly BatchFate[]; readonly ofNothing: readonly string[] }> {
  const { registry, submissions, transport } = work;
  const known = await submissions.batches(registry);
  const waiting = known.filter(({ state }) => state === 'sent' || state === 'sending');
  const fates: BatchFate[] = [];
  const ofNothing: string[] = [];
  const found = await transport.answers(waiting);
  for (const { from, batch: id, text } of found) {
    const batch = known.find(one => one.id === id) ?? known.find(one => from.includes(one.id));
    if (batch) fates.push(await takeAnswer(batch, text, work, from));
    else ofNothing.push(from);
  }
  return { fates: fates.filter(({ fate }) => fate !== 'read before'), ofNothing };
}
