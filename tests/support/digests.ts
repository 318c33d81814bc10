import { createHash } from 'node:crypto';
import { preparedExample } from './examples.js';

/** One line an example: the digest of all that is made of it. */
export function digests(files: readonly string[]): string {
  return files
    .map(file => {
      const { submission, document, reports, timeline } = preparedExample(file);
      const all = JSON.stringify([submission, document, reports, timeline]);
      return `${file} ${createHash('sha256').update(all).digest('hex')}\n`;
    })
    .join('');
}
