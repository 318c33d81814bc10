import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { destinationAt } from '../../src/delivery/destination.js';
import { submitCase } from '../../src/pipeline/submit.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { exampleFiles, preparedExample } from '../support/examples.js';

describe('all examples at one server', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());

  it.each(exampleFiles)(
    '%s is accepted beside the others, and changes nothing when sent again',
    async file => {
      const { destination } = destinationAt(server.baseUrl);
      if (!destination) throw new Error('no destination');
      const deps = { clock: () => Date.now(), newId: () => randomUUID() };
      const prepared = preparedExample(file);
      const first = await submitCase(prepared, destination, deps);
      expect(first.findings.map(f => f.message)).toEqual([]);
      expect(first.state).toBe('delivered');
      const held = server.repository.all().length;
      const second = await submitCase(prepared, destination, deps);
      expect(second.state).toMatch(/^delivered/);
      expect(server.repository.all().length).toBe(held);
    },
  );
});
