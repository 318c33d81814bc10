import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { startSandbox } from '../../../src/service/sandbox/server.js';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const heldMegabytes = () => {
  collect();
  return process.memoryUsage().heapUsed / 1e6;
};

it('keeps what was stored and not the requests that brought it', async () => {
  const server = await startSandbox();
  // Long enough that the engine makes parts of the request of them.
  const resource = (n: number) =>
    `{"resourceType":"Observation","meta":{"tag":[{"system":"urn:a-system-of-tags","code":"a-tag-of-number-${n}"}]},
      "identifier":[{"system":"urn:a-system-of-numbers","value":"a-long-number-${n}"}],"status":"final",
      "code":{"text":"blood loss"},"valueQuantity":{"value":4.20}}`;
  const send = async (n: number) => {
    const body = `${resource(n)}${' '.repeat(2_000_000)}`;
    const headers = { 'content-type': 'application/fhir+json' };
    const answer = await fetch(`${server.baseUrl}/Observation`, { method: 'POST', headers, body });
    await answer.arrayBuffer();
    expect(answer.status).toBe(201);
  };
  try {
    for (let n = 0; n < 5; n += 1) await send(n);
    const before = heldMegabytes();
    for (let n = 5; n < 35; n += 1) await send(n);
    expect(server.repository.all()).toHaveLength(35);
    // Requests are 60 MB together.
    expect(heldMegabytes() - before).toBeLessThan(15);
  } finally {
    await server.close();
  }
});
