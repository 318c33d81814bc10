import type { Outbox } from '../../../delivery/outbox/outbox.js';
import { digestOf } from '../../../delivery/request/submission.js';
import { CasetallyError } from '../../../findings/errors.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { counted, jsonText, type Output } from '../../output.js';
import {
  hasAudit,
  hasDrafts,
  hasRegister,
  hasSubmissions,
  openAudit,
  openDrafts,
  openRegister,
  openSubmissions,
} from '../../process.js';
import { filled, table } from '../../terminal/fill.js';
import { type OutboxFlags, withOutbox } from './outbox.js';

interface PurgeFlags extends OutboxFlags {
  readonly olderThan: string;
}

const HOURS: Readonly<Record<string, number>> = { h: 1, d: 24, w: 168 };

/** Milliseconds of an age such as `90d`, `12h` or `4w`. @throws CasetallyError 'usage' for anything else. */
export function ageMs(text: string): number {
  const [, count, unit = ''] = /^(\d{1,5})([hdw])$/.exec(text) ?? [];
  if (count === undefined)
    throw new CasetallyError(
      'usage',
      `'${text}' is no age: write hours, days or weeks, such as 12h, 90d or 8w.`,
    );
  return Number(count) * (HOURS[unit] ?? 0) * 3_600_000;
}

/** Removes what was delivered, or discarded, longer ago than an age. What is not delivered is never removed. */
export function purge(flags: PurgeFlags, output: Output): Promise<ExitCode> {
  const age = ageMs(flags.olderThan);
  return withOutbox(flags, async outbox => {
    const removed = await outbox.purge(Date.now() - age);
    if (flags.json) output.out(jsonText({ removed }));
    else output.out(`${removed} items older than ${flags.olderThan} removed\n`);
    return exitCodes.ok;
  });
}

/** Seals everything with the first key of CASETALLY_OUTBOX_KEY; the others open what was sealed before. */
export function rekey(flags: OutboxFlags, output: Output): Promise<ExitCode> {
  if (!process.env['CASETALLY_OUTBOX_KEY'])
    throw new CasetallyError(
      'usage',
      'rekey needs CASETALLY_OUTBOX_KEY: the new key, then a comma and the old ones.',
    );
  const work = async (outbox: Outbox, path: string) => {
    const changed = await outbox.rekey();
    const register = await rekeyRegister(flags.data);
    const registries = await rekeySubmissions(flags.data);
    const drafts = await rekeyDrafts(flags.data);
    const audit = await rekeyAudit(flags.data);
    if (flags.json) output.out(jsonText({ path, changed, register, registries, drafts, audit }));
    else
      output.out(
        filled(
          `${path}: ${changed} items${register > 0 ? `, ${register} rows of the register` : ''}${registries > 0 ? `, ${registries} rows of what was given to registries` : ''}${drafts > 0 ? `, ${drafts} rows of drafts` : ''}${audit > 0 ? `, ${audit} entries of the audit trail` : ''} sealed with the first key, which now opens everything; the older keys can be left out.`,
          output.columns,
        ),
      );
    return exitCodes.ok;
  };
  return withOutbox(flags, work, true);
}

/** The register beside the outbox has the same key. */
async function rekeyRegister(data: string | undefined): Promise<number> {
  if (!hasRegister(data)) return 0;
  const { register } = await openRegister(data, '', true);
  try {
    return await register.rekey();
  } finally {
    await register.close();
  }
}

/** The audit trail has the same key; its digests are of what is sealed and stay. */
async function rekeyAudit(data: string | undefined): Promise<number> {
  if (!hasAudit(data)) return 0;
  const { trail } = await openAudit(data, true);
  try {
    return await trail.rekey();
  } finally {
    await trail.close();
  }
}

/** What was given to registries has the same key. */
async function rekeySubmissions(data: string | undefined): Promise<number> {
  if (!hasSubmissions(data)) return 0;
  const submissions = await openSubmissions(data, true);
  try {
    return await submissions.rekey();
  } finally {
    await submissions.close();
  }
}

/** Drafts have the same key. */
async function rekeyDrafts(data: string | undefined): Promise<number> {
  if (!hasDrafts(data)) return 0;
  const drafts = await openDrafts(data, true);
  try {
    return await drafts.rekey();
  } finally {
    await drafts.close();
  }
}

/** Looks whether the outbox is whole: the store itself, every sealed field, every digest, every receipt. */
export function outboxDoctor(flags: OutboxFlags, output: Output): Promise<ExitCode> {
  return withOutbox(
    flags,
    async (outbox, path) => {
      const { store, items } = await outbox.check();
      const faults = items.flatMap(({ id, item }) => {
        if (!item) return [{ id, fault: 'cannot be opened with the keys given, or was changed' }];
        const { payload, digest, state, receipt } = item;
        if (digestOf(payload) !== digest) return [{ id, fault: 'the submission does not have its digest' }];
        if (state === 'delivered' && receipt?.digest !== digest)
          return [{ id, fault: 'the receipt is missing or about another submission' }];
        return [];
      });
      const sound = store.length === 0 && faults.length === 0;
      if (flags.json) output.out(jsonText({ path, sound, items: items.length, store, faults }));
      else {
        const verdict = sound ? 'all sound' : 'not sound';
        output.out(filled(`${path}: ${counted(items.length, 'item', 'items')}, ${verdict}`, output.columns));
        for (const line of store) output.out(filled(`store: ${line}`, output.columns, '  '));
        if (faults.length > 0)
          output.out(table([['item', 'fault'], ...faults.map(f => [f.id, f.fault])], output.columns));
      }
      return sound ? exitCodes.ok : exitCodes.findings;
    },
    true,
  );
}
