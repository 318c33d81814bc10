import { z } from 'zod';
import { secretsOf } from '../threads/cases.js';
import { lacking } from './guard.js';
import type { ServicePorts } from './handlers.js';
import type { Reply } from './reply.js';
import type { Asked } from './route.js';
import { inLanguage, no } from './wanted.js';

const word = z.string().trim().min(1).max(200);
const sources = {
  order: word.optional(),
  from: z.string().max(200).optional(),
  kits: z.array(z.string().max(200)).max(50).default([]),
  patient: z
    .array(z.strictObject({ system: word, value: word }))
    .max(10)
    .default([]),
  register: z.boolean().default(false),
  earlier: z.array(z.string()).max(5).default([]),
};
export const begun = z.strictObject({ ...sources, case: word.optional(), date: z.iso.date().optional() });
export const added = z.strictObject({ ...sources, record: z.string().min(1) });

/** Bytes of what sources are asked for with: a record and earlier cases come whole. */
export const MAX_BRINGING = 2_000_000;

const NAMED =
  '"order": number, "from": destination, "kits": names, "earlier": records, "register": true, "patient": [{"system": …, "value": number}]';

/** POST /intake/begin: what a record begins with stands in the body, since an order's number leads to a patient. */
export function beginRecordHandler(asked: Asked, ports: ServicePorts): Reply | Promise<Reply> {
  const read = begun.safeParse(asked.body);
  if (!read.success) return no(`Send {${NAMED}, "case": number, "date": day}, each or none.`);
  const { case: id, date, ...given } = read.data;
  return bringSources(asked, ports, given, { id, date });
}

/** POST /intake/add: the same into a record that is there. */
export function addToRecordHandler(asked: Asked, ports: ServicePorts): Reply | Promise<Reply> {
  const read = added.safeParse(asked.body);
  if (!read.success) return no(`Send {"record": text of the record, ${NAMED}}, each or none of the sources.`);
  const { record, ...given } = read.data;
  return bringSources(asked, ports, given, record);
}

function bringSources(
  asked: Asked,
  { cases, site, secrets, register }: ServicePorts,
  { order, from, ...given }: Omit<z.output<typeof begun>, 'case' | 'date'>,
  into: string | { readonly id: string | undefined; readonly date: string | undefined },
): Reply | Promise<Reply> {
  // What is inside a patient is asked of the register by the same right as there.
  const refused = given.register ? lacking(asked.caller, 'register') : undefined;
  if (refused) return refused;
  if (given.register && !register) return no('This site keeps no register.');
  const wanted = inLanguage(asked, {
    do: 'bring' as const,
    ...{ into, order, from, ...given, secrets: secretsOf(site, secrets) },
  });
  if ('status' in wanted) return wanted;
  const job = { body: new Uint8Array(), type: '', maxBytes: 0, wanted };
  return cases.ask(job, new AbortController().signal);
}
