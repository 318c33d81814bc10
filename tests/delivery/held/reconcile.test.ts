import { describe, expect, it } from 'vitest';
import { openSession } from '../../../src/delivery/destination/session.js';
import { lookAtOnce } from '../../../src/delivery/held/reconcile.js';
import { readSubmission } from '../../../src/delivery/request/submission.js';
import { startCrashServer } from '../../e2e/crash/server.js';
import { deps, destination, submissionText } from '../samples.js';

describe('looking at what a server holds of a case', () => {
  it('looks again for what its searches had not caught up with when the first of them was made', async () => {
    const server = await startCrashServer(0);
    const submission = readSubmission(submissionText());
    if (!submission) throw new Error('no submission');
    let asked = 0;
    let visible: Promise<unknown> = Promise.resolve();
    const session = openSession(destination(server.baseUrl), {
      ...deps(),
      // The case becomes visible after the search for its first resource, the patient, was answered.
      fetch: async (url, init) => {
        asked += 1;
        if (asked > 1) {
          await visible;
          return fetch(url, init);
        }
        const answer = fetch(url, init);
        visible = answer.then(() => fetch(server.baseUrl, { method: 'POST', body: submissionText() }));
        return answer;
      },
    });
    const seen = await lookAtOnce(submission, session);
    expect([seen.verdict, seen.mayLag, seen.entries.map(({ state }) => state)]).toEqual([
      'all',
      false,
      ['equal', 'equal', 'equal', 'equal'],
    ]);
    await server.close();
  });
});
