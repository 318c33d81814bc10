import { z } from 'zod';
import type { SecretSource } from '../../delivery/auth/secrets.js';
import type { Outbox } from '../../delivery/outbox/outbox.js';
import type { Drafts } from '../../drafts/store/drafts.js';
import { questionnaire } from '../../intake/form/questionnaire.js';
import { writeFhirJson } from '../../json/write.js';
import { kitNames } from '../../pipeline/intake/kits.js';
import { catalogued, type OpenedSite } from '../../pipeline/open-case.js';
import { canonicalOf } from '../../pipeline/settings.js';
import { caseRecordJsonSchema } from '../../record/json-schema.js';
import type { Register } from '../../register/store/register.js';
import { unconfiguredSite } from '../../site/site.js';
import type { CaseWork } from '../threads/cases.js';
import type { DraftChanges } from './draft-changes.js';
import { type Reply, refusal, reply } from './reply.js';

/** What the service works with, loaded once. */
export interface ServicePorts {
  readonly site: OpenedSite;
  readonly outbox: Outbox;
  /** Where the site keeps one. */
  readonly register?: Register;
  readonly drafts?: { readonly store: Drafts; readonly changes: DraftChanges };
  readonly secrets: SecretSource;
  readonly cases: CaseWork;
  readonly clock: () => number;
  readonly softwareVersion: string;
}

/** GET /destinations: names alone; an address may hold what is nobody's business. */
export function destinationsHandler({ site }: ServicePorts): Reply {
  return reply(200, { destinations: Object.keys(site.site.destinations).map(name => ({ name })) });
}

/** GET /intake/kits: names of the kits that POST /intake/merge takes. */
export async function kitsHandler({ site }: ServicePorts): Promise<Reply> {
  return reply(200, { kits: await kitNames(site) });
}

/** Identifiers of devices whose rows of the catalogue are wanted. */
export const wantedDevices = z.strictObject({ di: z.array(z.string().min(1).max(50)).min(1).max(100) });

/** POST /devices/catalogue: what the catalogue of the site knows of identifiers; a label is read by whoever asks. */
export async function catalogueHandler(body: unknown, { site }: ServicePorts): Promise<Reply> {
  const read = wantedDevices.safeParse(body);
  if (!read.success) return refusal(400, 'invalid', 'Send {"di": [identifiers of devices]}, 100 at most.');
  const { rows } = await catalogued(site, read.data.di);
  return reply(200, { rows: [...rows.values()].map(({ line: _, ...row }) => row) });
}

/** GET /settings: what of the site the check of a case goes by, for pages that check by themselves; nothing else of it. */
export function settingsHandler({ site: { site }, drafts, register }: ServicePorts): Reply {
  const { timeZone, language, contact, devices, coding, clinical, aftercare, service } = site;
  const { jurisdiction, issuers } = coding;
  const { catalogue: _, ...kinds } = devices;
  return reply(200, {
    site: {
      ...{ timeZone, language, contact, devices: kinds, clinical, aftercare },
      coding: { ...unconfiguredSite.coding, jurisdiction, issuers },
    },
    drafts: drafts !== undefined,
    register: register !== undefined,
    // Unsaved work that a browser keeps sealed is erased after so long.
    hours: service.sessions.hours,
  });
}

/** GET /schema: the JSON Schema of the case record. */
export function schemaHandler(): Reply {
  return { status: 200, body: JSON.stringify(caseRecordJsonSchema()) };
}

/** GET /questionnaire: the case record as a form. */
export function questionnaireHandler({ site, softwareVersion }: ServicePorts): Reply {
  const form = questionnaire({ ...canonicalOf(site.site), version: softwareVersion });
  return {
    status: 200,
    body: writeFhirJson(form, 0),
    headers: { 'content-type': 'application/fhir+json; charset=utf-8' },
  };
}

/** Starts of threads that fail in a row before the service calls itself unwell. */
const MAX_FAILED_STARTS = 3;

/** GET /healthz: 200 when the outbox answers and cases can be worked out. Nothing in it is about patients. */
export async function healthHandler(ports: ServicePorts): Promise<Reply> {
  try {
    if (ports.cases.state.failedStarts >= MAX_FAILED_STARTS)
      return reply(503, { status: 'no thread can be started' });
    await ports.outbox.depths();
    return reply(200, { status: 'ok' });
  } catch {
    return reply(503, { status: 'outbox unavailable' });
  }
}
