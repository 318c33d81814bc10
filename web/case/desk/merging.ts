import { language } from '../../words.js';
import type { ShownFinding } from '../engine/work.js';
import { addressOf } from './service.js';

/** What POST /intake/merge answers, as far as the page reads it. */
export interface MergedWith {
  /** The record with what was given to it; absent where nothing may be written. */
  readonly record?: string;
  readonly findings: readonly ShownFinding[];
  /** Sources of which nothing was taken: they speak of another patient or case. */
  readonly held: readonly unknown[];
}

/** Brings a kit of the site or a source into a record, at the service; undefined where it did not answer or refused. */
export async function mergedWith(
  fetch: typeof globalThis.fetch,
  text: string,
  { kit, source }: { readonly kit?: string; readonly source?: object },
): Promise<MergedWith | undefined> {
  const body = new FormData();
  // As bytes: the ends of lines of a text are changed on the way.
  body.set('case', new Blob([text]));
  if (source) body.set('source', new Blob([JSON.stringify(source)]));
  const address = addressOf('v1/intake/merge');
  address.searchParams.set('language', language);
  if (kit !== undefined) address.searchParams.set('kit', kit);
  try {
    const answer = await fetch(address, {
      ...{ method: 'POST', body, headers: { 'x-casetally-page': 'yes' } },
      ...{ cache: 'no-store', redirect: 'error' },
    });
    return answer.ok ? ((await answer.json()) as MergedWith) : undefined;
  } catch {
    return undefined;
  }
}
