import type { Language } from '../../../src/findings/languages.js';
import { say } from '../../../src/findings/say.js';
import { checkCase } from '../../../src/pipeline/check.js';
import { compareRecords } from '../../../src/record/changes/compare.js';
import type { Site } from '../../../src/site/site.js';

/** One fact that a new version tells differently, in words. */
export interface ShownChange {
  readonly path: string;
  readonly what: string;
  readonly before?: string;
  readonly after?: string;
}

/** What a text tells differently from an earlier one; undefined where one of them cannot be read as a whole. */
export function compared(
  before: string,
  after: string,
  site: Site,
  language: Language,
  now: number,
): readonly ShownChange[] | undefined {
  const [old, fresh] = [before, after].map(text => checkCase(text, site, undefined, now).record);
  if (!old || !fresh) return undefined;
  return compareRecords(old, fresh).map(({ path, what, before: was, after: is }) => ({
    path,
    what: say(what, language),
    ...(was !== undefined && { before: say(was, language) }),
    ...(is !== undefined && { after: say(is, language) }),
  }));
}
