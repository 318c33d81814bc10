import type { Assessment } from '../clinical/assessment.js';
import { timelineSvg } from '../devices/timeline/svg.js';
import { timelineOf } from '../devices/timeline/timeline.js';
import type { Language } from '../findings/languages.js';
import type { CaseRecord } from '../record/schema/record.js';
import { dosePanelSvg } from '../report/pictures/dose.js';
import type { ReadPictures, StoredPictures } from '../report/pictures/stored.js';
import type { Site } from '../site/site.js';
import { limitsOf } from './settings.js';

/** All that a report shows beside its words. */
export interface Drawings {
  readonly timelineSvg: string;
  /** Empty where no dose is recorded. */
  readonly doseSvg: string;
  readonly pictures?: StoredPictures;
}

/** Draws the device timeline and the dose panel of a case; stored pictures come with them where they were read. */
export function drawingsOf(
  record: CaseRecord,
  assessment: Assessment,
  site: Site,
  language: Language,
  read: ReadPictures | undefined,
): Drawings {
  return {
    timelineSvg: timelineSvg(timelineOf(record, assessment.devices, assessment.tally, language)),
    doseSvg: dosePanelSvg(record, limitsOf(site).radiation, language),
    ...(read && { pictures: read.pictures }),
  };
}
