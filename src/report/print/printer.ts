import type { Assessment } from '../../clinical/assessment.js';
import { type Lexicon, lexicon } from '../../findings/say.js';
import type { Coded } from '../../record/schema/fields.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { ReportOptions } from '../options.js';
import { nameDevices } from './names.js';
import { caseOffset, timePrinter } from './times.js';
import { tradeNames } from './trade.js';

/** Everything the sections of the view are written with: facts in, reader's words out. */
export interface Printer
  extends Lexicon,
    ReturnType<typeof timePrinter>,
    ReturnType<typeof nameDevices>,
    ReturnType<typeof tradeNames> {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  /** Name of a team member; the key itself where none has it. */
  person(key: string): string;
  /** `common hepatic duct`, with its side where recorded. */
  target(key: string): string;
  access(key: string): string;
  /** The text with its side: `kidney, left`. */
  sided(what: Coded, side: 'left' | 'right' | 'both' | 'midline' | undefined): string;
}

/** Makes the printer of one report. */
export function printer(record: CaseRecord, assessment: Assessment, options: ReportOptions): Printer {
  const words = lexicon(options.language ?? 'en-GB', caseOffset(record) ?? '');
  const trade = tradeNames(words);
  const sided: Printer['sided'] = (what, side) => {
    const place = trade.place(what.text);
    if (side === undefined) return place;
    const said = words.say('name.side', { what: place, side: words.say(`side.${side}`) });
    // A name in the reader's language may have its side already, and so may one that begins with it.
    if (place !== what.text && said.startsWith(place + place.slice(place.lastIndexOf(',')))) return place;
    return place.toLowerCase().startsWith(`${words.say(`side.${side}`).toLowerCase()} `) ? place : said;
  };
  return {
    ...words,
    ...timePrinter(record, words),
    ...nameDevices(record, assessment, words),
    ...trade,
    record,
    assessment,
    person: key => record.team.find(member => member.key === key)?.name ?? key,
    target: key => {
      const target = record.targets?.[key];
      return target ? sided(target.what, target.side) : key;
    },
    access: key => {
      const access = record.access?.find(entry => entry.key === key);
      return access ? sided(access.site, access.side) : key;
    },
    sided,
  };
}
