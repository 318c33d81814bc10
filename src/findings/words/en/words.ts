import { answers } from './answers.js';
import { calculations } from './calculations.js';
import { casePage } from './case.js';
import { caseWay } from './case-way.js';
import { course } from './course.js';
import { doses } from './doses.js';
import { drafts } from './drafts.js';
import { ends } from './ends.js';
import { events } from './events.js';
import { fields } from './fields.js';
import { intake } from './intake.js';
import { kinds } from './kinds.js';
import { labels } from './labels.js';
import { lines } from './lines.js';
import { next } from './next.js';
import { parts } from './parts.js';
import { patient } from './patient.js';
import { phrases } from './phrases.js';
import { readers } from './readers.js';
import { reading } from './reading.js';
import { reasons } from './reasons.js';
import { review, screen } from './review.js';
import { scans } from './scans.js';
import { terminal } from './terminal.js';
import { timeline } from './timeline.js';
import { times } from './times.js';
import { unsized } from './unsized.js';

/** Everything that is said in English (UK), findings aside. The keys are the contract for the other languages. */
export const en = {
  ...intake,
  ...labels,
  ...kinds,
  ...phrases,
  ...events,
  ...readers,
  ...patient,
  ...timeline,
  ...calculations,
  ...ends,
  ...next,
  ...reasons,
  ...terminal,
  ...review,
  ...screen,
  ...casePage,
  ...caseWay,
  ...parts,
  ...answers,
  ...reading,
  ...lines,
  ...scans,
  ...unsized,
  ...doses,
  ...drafts,
  ...fields,
  ...course,
  ...times,
} as const;
