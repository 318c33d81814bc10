import { z } from 'zod';
import { secretsOf } from '../threads/cases.js';
import { lacking } from './guard.js';
import type { ServicePorts } from './handlers.js';
import type { Reply } from './reply.js';
import type { Asked } from './route.js';
import { inLanguage, no } from './wanted.js';

export const begun = z.strictObject({
  case: z.string().trim().min(1).max(200).optional(),
  date: z.iso.date().optional(),
  order: z.string().trim().min(1).max(200).optional(),
  from: z.string().max(200).optional(),
  kits: z.array(z.string().max(200)).max(50).optional(),
  patient: z
    .array(
      z.strictObject({ system: z.string().trim().min(1).max(200), value: z.string().trim().min(1).max(200) }),
    )
    .max(10)
    .optional(),
  register: z.boolean().optional(),
  earlier: z.array(z.string()).max(5).optional(),
});

/** Bytes of what a record begins with: earlier cases come whole. */
export const MAX_BEGINNING = 2_000_000;

/** POST /intake/begin: what a record begins with stands in the body, since an order's number leads to a patient. */
export function beginRecordHandler(
  asked: Asked,
  { cases, site, secrets, register: kept }: ServicePorts,
): Reply | Promise<Reply> {
  const read = begun.safeParse(asked.body);
  if (!read.success)
    return no(
      'Send {"order": number, "from": destination, "kits": names, "earlier": records, "register": true, "patient": [{"system": …, "value": number}], "case": number, "date": day}, each or none.',
    );
  const { kits = [], patient = [], register = false, earlier = [], ...given } = read.data;
  // What is inside a patient is asked of the register by the same right as there.
  const refused = register ? lacking(asked.caller, 'register') : undefined;
  if (refused) return refused;
  if (register && !kept) return no('This site keeps no register.');
  const named = {
    ...{ case: given.case, date: given.date, order: given.order, from: given.from },
    ...{ kits, patient, register, earlier },
  };
  const wanted = inLanguage(asked, { do: 'begin' as const, ...named, secrets: secretsOf(site, secrets) });
  if ('status' in wanted) return wanted;
  const job = { body: new Uint8Array(), type: '', maxBytes: 0, wanted };
  return cases.ask(job, new AbortController().signal);
}
