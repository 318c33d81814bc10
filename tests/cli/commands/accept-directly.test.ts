import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { send } from '../../../src/cli/commands/send.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { exampleText } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-accept-'));
const file = join(folder, 'case.yaml');
let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await server.close();
});

async function run(flags: object) {
  const lines: string[] = [];
  const put = (line: string) => void lines.push(line);
  const code = await send(
    file,
    { to: server.baseUrl, direct: true, ...flags },
    { out: put, err: put, color: false },
  );
  return { code, said: lines.join('') };
}

describe('a near match of a case that is sent directly', () => {
  const text = exampleText('liver-biopsy.yaml');
  const name = /^ {2}name: "?([^"\n]+)"?$/m.exec(text)?.[1] ?? '';
  // Two letters swapped.
  const near = name.replace(/^(..)(.)(.)/, '$1$3$2');

  it('holds it back until a person lets that field pass, which is said', async () => {
    expect(near).not.toBe(name);
    writeFileSync(file, text);
    expect((await run({})).code).toBe(0);
    writeFileSync(file, text.replace(name, near));
    const by = { by: 'Sefa Marquand', why: 'misspelt at admission' };
    expect(await run({})).toMatchObject({ code: 1, said: expect.stringContaining('delivery.match-near') });
    await expect(run({ accept: ['birthDate'], ...by })).rejects.toThrow(/to be accepted are: name/);
    const { code, said } = await run({ accept: ['name'], ...by });
    expect(said.replace(/\s+/g, ' ')).toContain(
      `accepted name by Sefa Marquand: ${near} in the record, ${name} there: misspelt`,
    );
    // What went wrong then, if anything, is no longer the name.
    expect(said).not.toContain('delivery.match-near');
    expect(code).not.toBe(1);
  });

  it('is accepted with who and why, and through the outbox in another way', async () => {
    await expect(run({ accept: ['name'] })).rejects.toThrow(/--by and --why/);
    await expect(run({ accept: ['name'], by: 'a', why: 'b', direct: false })).rejects.toThrow(/outbox retry/);
  });
});
