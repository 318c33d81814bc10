import { z } from 'zod';
import { draftStates } from '../../../drafts/store/drafts.js';

/* What the service answers, as programs may rely on it. Answers may grow: unknown members are let pass. */

const time = z.iso.datetime().describe('UTC');

export const finding = z
  .looseObject({
    severity: z.enum(['fatal', 'error', 'warning', 'information']),
    code: z.string().describe('A code of docs/findings.md'),
    path: z.string().describe('Place in the record, such as events[3].over'),
    line: z.int().optional(),
    message: z.string(),
    remedy: z.string(),
    basis: z.string(),
  })
  .meta({ id: 'Finding' });

const findings = z.array(finding);

/** A refusal, but for those of drafts. */
export const outcome = z
  .looseObject({
    resourceType: z.literal('OperationOutcome'),
    issue: z.array(z.looseObject({ severity: z.string(), code: z.string() })).min(1),
    findings,
  })
  .meta({ id: 'Refusal', description: 'A FHIR R4 OperationOutcome, and the findings beside it' });

/** A refusal of the FHIR face. */
export const fhirOutcome = outcome
  .omit({ findings: true })
  .meta({ id: 'OperationOutcome', description: 'A FHIR R4 OperationOutcome' });

/** A resource of the FHIR face; the standard says what is in it. */
export const resource = z
  .looseObject({ resourceType: z.string() })
  .meta({ id: 'Resource', description: 'A FHIR R4 resource' });

/** A refusal of drafts: RFC 9457. */
export const problem = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    code: z.string().optional(),
    detail: z.string().optional(),
    findings: findings.optional(),
  })
  .meta({ id: 'Problem', description: 'Problem details (RFC 9457)' });

export const item = z
  .looseObject({
    id: z.string(),
    destination: z.string(),
    state: z.enum(['waiting', 'sending', 'delivered', 'parked', 'discarded']),
    created: time,
    attempts: z.int(),
  })
  .meta({ id: 'Item', description: 'One case on its way to one destination' });

const summary = {
  id: z.string(),
  version: z.int(),
  state: z.enum(draftStates),
  day: z.iso.date(),
  begun: time,
  changed: time,
  by: z.string(),
  case: z.string().optional(),
  patient: z.string().optional(),
  patientNumber: z.string().optional(),
};
export const draft = z.looseObject({ ...summary, text: z.string() }).meta({ id: 'Draft' });
export const draftList = z.looseObject({
  drafts: z.array(z.looseObject({ ...summary, next: z.string() }).meta({ id: 'DraftRow' })),
  more: z.boolean(),
});
export const saved = z.looseObject({ id: z.string(), version: z.int(), text: z.string() });
export const moved = z.looseObject({ id: z.string(), version: z.int(), state: z.enum(draftStates) });
export const versions = z.looseObject({
  versions: z.array(
    z.looseObject({ version: z.int(), state: z.enum(draftStates), by: z.string(), at: time }),
  ),
});
export const readiness = z.looseObject({
  ready: z.boolean(),
  facts: z.array(z.looseObject({ key: z.string(), label: z.string(), lines: z.array(z.string()) })),
  goesTo: z.array(z.string()),
  findings,
});
export const checked = z.looseObject({ whole: z.boolean(), findings, tally: z.array(z.looseObject({})) });
export const prepared = z.looseObject({
  sendable: z.boolean(),
  findings,
  goesTo: z.array(z.string()),
  reports: z.looseObject({}),
});
export const brought = z.looseObject({ record: z.string().optional(), findings });
export const found = z.looseObject({ findings });
export const items = z.looseObject({ items: z.array(item) });
export const anything = z.looseObject({});
