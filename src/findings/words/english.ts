import { catalogue, type FindingCode } from '../catalogue.js';
import { en } from './en/words.js';

type Rows = typeof catalogue;

/** Everything that can be said, in English: words, and message and remedy of every finding. */
export type English = typeof en & { readonly [C in FindingCode as `finding.${C}`]: Rows[C]['message'] } & {
  readonly [C in FindingCode as `remedy.${C}`]: Rows[C]['remedy'];
};

/** The texts of `English`. */
export const english: Readonly<Record<string, string>> = {
  ...en,
  ...Object.fromEntries(
    Object.entries(catalogue).flatMap(([code, { message, remedy }]) => [
      [`finding.${code}`, message],
      [`remedy.${code}`, remedy],
    ]),
  ),
};
