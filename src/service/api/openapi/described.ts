import type { ZodType } from 'zod';
import { reportFormats } from '../../../pipeline/print-report.js';
import { audiences } from '../../../report/options.js';
import { papers } from '../../../report/pdf/options.js';
import { added, begun } from '../bring-sources.js';
import { discarded } from '../draft-handlers.js';
import { searched } from '../draft-lists.js';
import { sent } from '../draft-saving.js';
import { closing, signing } from '../draft-sign.js';
import { takenBy } from '../draft-take-in.js';
import { wantedDevices } from '../handlers.js';
import { decision } from '../outbox-handlers.js';
import { historyAsked, insideAsked, recallAsked } from '../register-handlers.js';
import * as answers from './answers.js';

/** A parameter that is one of some words, and what it does. */
interface WordsOf {
  readonly about: string;
  readonly words: readonly string[];
}

/** What is to be said of one route. */
export interface Described {
  readonly summary: string;
  /** JSON that it takes. */
  readonly body?: ZodType;
  /** Parameters of its address, by name, with what they do. */
  readonly query?: Readonly<Record<string, string | WordsOf>>;
  /** What it answers when all is well; types alone where that is no JSON. */
  readonly answer: ZodType | readonly string[];
  /** 200 where it is not said. */
  readonly status?: number;
  /** Made for one version of a draft: If-Match. */
  readonly versioned?: true;
}

const language = { language: 'Language of the answer: en-GB, en-US, de, es, fr' };
const to = { to: 'Name of a destination; where the case goes by itself when absent' };
const day = { on: 'Day, YYYY-MM-DD; today at the site when absent' };
const list = { ...day, within: 'Days ahead; 14 when absent', kind: 'Kind of device', by: 'Who is to act' };

const format = {
  _format: { about: 'In place of Accept', words: ['application/fhir+json', 'application/json', 'json'] },
};
const validation = {
  mode: { about: 'For a resource that is the body itself', words: ['create', 'profile'] },
  profile: 'Canonical address of a profile, likewise',
};

/** Every route of the service behind the guard, and what is said of it. */
export const described: Readonly<Record<string, Described>> = {
  'GET /schema': { summary: 'JSON Schema of the case record', answer: answers.anything },
  'GET /settings': { summary: 'What of the site the check of a case goes by', answer: answers.anything },
  'GET /questionnaire': {
    summary: 'The case record as a FHIR R4 Questionnaire',
    answer: ['application/fhir+json'],
  },
  'GET /destinations': { summary: 'Names of the destinations', answer: answers.anything },
  'GET /outbox': {
    summary: 'Cases on their way',
    query: {
      state: {
        about: 'Where they stand',
        words: ['waiting', 'sending', 'delivered', 'parked', 'discarded'],
      },
    },
    answer: answers.items,
  },
  'GET /outbox/:id': { summary: 'One of them', query: language, answer: answers.item },
  'GET /outbox/:id/receipt': { summary: 'The receipt of its delivery', answer: answers.anything },
  'POST /outbox/:id/retry': { summary: 'Sends it again', body: decision, answer: answers.anything },
  'POST /outbox/:id/park': { summary: 'Holds it', body: decision, answer: answers.anything },
  'POST /outbox/:id/discard': { summary: 'Gives it up', body: decision, answer: answers.anything },
  'POST /cases/check': {
    summary: 'Findings, device tally and what was worked out of a record',
    query: language,
    answer: answers.checked,
  },
  'POST /cases/prepare': {
    summary: 'Document, submission, reports and timeline of a record; nothing is kept',
    query: {
      ...language,
      audience: { about: 'One reader alone', words: audiences },
      draft: { about: 'Reports of a record with errors too', words: ['yes'] },
    },
    answer: answers.prepared,
  },
  'POST /cases/report': {
    summary: 'One report of a record',
    query: {
      ...language,
      audience: { about: 'Reader; record when absent', words: audiences },
      format: { about: 'In place of Accept', words: reportFormats },
      paper: { about: 'Of a PDF', words: papers },
      draft: { about: 'Of a record with errors too', words: ['yes'] },
    },
    answer: ['text/plain', 'text/html', 'application/pdf'],
  },
  'POST /cases': {
    summary: 'Takes a record in for delivery',
    query: { ...language, ...to },
    answer: answers.items,
    status: 202,
  },
  'POST /cases/trays': {
    summary: 'Where each device is, and what can be done with it there',
    query: language,
    answer: answers.found,
  },
  'POST /cases/events': {
    summary: 'What typed or dictated lines would add to a record',
    query: { ...language, at: 'Time of the first line, 09:04', accept: 'yes: with the record that has them' },
    answer: answers.found,
  },
  'POST /cases/from-response': {
    summary: 'A record from a QuestionnaireResponse',
    query: language,
    answer: answers.found,
  },
  'POST /intake/begin': {
    summary: 'A new record from an order, kits, earlier cases and the register; nothing is kept',
    body: begun,
    query: language,
    answer: answers.brought,
  },
  'POST /intake/add': {
    summary: 'A record with what an order, kits, earlier cases and the register give; nothing is kept',
    body: added,
    query: language,
    answer: answers.brought,
  },
  'POST /devices/catalogue': {
    summary: 'What the device catalogue of the site knows of identifiers',
    body: wantedDevices,
    answer: answers.anything,
  },
  'GET /intake/kits': { summary: 'Names of the kits of the site', answer: answers.anything },
  'POST /intake/merge': {
    summary: 'A record with what kits and sources give; nothing is kept',
    query: { ...language, kit: 'Name of a kit, once for each' },
    answer: answers.brought,
  },
  'POST /dose/check': { summary: 'What DICOM dose reports say', query: language, answer: answers.found },
  'POST /register/inside': {
    summary: 'What is inside a patient',
    body: insideAsked,
    answer: answers.anything,
  },
  'POST /register/history': {
    summary: 'Every event of one device',
    body: historyAsked,
    answer: answers.anything,
  },
  'POST /register/recall': {
    summary: 'Who carries what lines name',
    body: recallAsked,
    answer: answers.anything,
  },
  'GET /register/due': {
    summary: 'Devices to be changed or to come out',
    query: list,
    answer: answers.anything,
  },
  'GET /register/overdue': { summary: 'Those whose time is over', query: list, answer: answers.anything },
  'GET /register/unreviewed': {
    summary: 'Devices that stay and were never looked at',
    query: day,
    answer: answers.anything,
  },
  'GET /register/unlinked': { summary: 'Devices that nobody linked', answer: answers.anything },
  'GET /drafts': {
    summary: 'Drafts of a day, with what each needs next',
    query: day,
    answer: answers.draftList,
  },
  'POST /drafts/search': {
    summary: 'Drafts by patient, number, case or device',
    body: searched,
    answer: answers.draftList,
  },
  'POST /drafts': { summary: 'Begins a draft from a text, or empty', answer: answers.draft, status: 201 },
  'GET /drafts/:id': { summary: 'One draft with its text', answer: answers.draft },
  'PATCH /drafts/:id': {
    summary: 'Edits, merged field by field',
    body: sent,
    answer: answers.saved,
    versioned: true,
  },
  'PUT /drafts/:id': { summary: 'A whole text, merged', answer: answers.saved, versioned: true },
  'GET /drafts/:id/versions': { summary: 'Who changed what, and when', answer: answers.versions },
  'GET /drafts/:id/versions/:n': { summary: 'The text of one version', answer: answers.anything },
  'GET /drafts/:id/changes': { summary: 'New versions as they come', answer: ['text/event-stream'] },
  'POST /drafts/:id/discard': {
    summary: 'Gives a draft up',
    body: discarded,
    answer: answers.moved,
    versioned: true,
  },
  'POST /drafts/:id/close': {
    summary: 'Says that everything is entered',
    body: closing,
    answer: answers.moved,
    versioned: true,
  },
  'POST /drafts/:id/reopen': {
    summary: 'Goes on entering',
    body: closing,
    answer: answers.moved,
    versioned: true,
  },
  'POST /drafts/:id/to-sign': {
    summary: 'What is about to be signed; changes nothing',
    body: signing.partial({ author: true }),
    answer: answers.readiness,
  },
  'POST /drafts/:id/sign': { summary: 'Signs it', body: signing, answer: answers.moved, versioned: true },
  'POST /drafts/:id/take-back': {
    summary: 'Takes the signature out while the case has not left',
    body: closing,
    answer: answers.moved,
    versioned: true,
  },
  'GET /fhir/metadata': {
    summary: 'What the service does as a FHIR server: a CapabilityStatement',
    query: format,
    answer: answers.resource,
  },
  'GET /fhir/OperationDefinition/process-case': {
    summary: 'Definition of the operation that works out a case',
    query: format,
    answer: answers.resource,
  },
  'POST /fhir/$validate': {
    summary: 'What conformance says of a resource, or of the one in Parameters; an OperationOutcome',
    query: { ...format, ...validation },
    answer: answers.resource,
  },
  'POST /fhir/:type/$validate': {
    summary: 'The same for a resource of one type',
    query: { ...format, ...validation },
    answer: answers.resource,
  },
  'POST /fhir/$process-case': {
    summary: 'Submission, document and findings of the record in Parameters; nothing is kept',
    query: format,
    answer: answers.resource,
  },
  'POST /drafts/:id/take-in': {
    summary: 'Takes its case in for delivery',
    body: takenBy,
    query: to,
    answer: answers.items,
    status: 202,
    versioned: true,
  },
};
