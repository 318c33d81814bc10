import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { move } from '../../../src/cli/commands/move.js';
import { retry } from '../../../src/cli/commands/outbox/retry.js';
import { send } from '../../../src/cli/commands/send.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { firstText, secondText } from '../../support/corrected.js';
import { type InTheWay, passingOn } from '../../support/passing-on.js';
import { sampled } from '../../support/sampled.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-move-'));
let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await server.close();
});

const write = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
async function run(command: (output: Parameters<typeof send>[2]) => Promise<number>) {
  const lines: string[] = [];
  const put = (line: string) => void lines.push(line);
  const code = await command({ out: put, err: put, color: false });
  return { code, said: lines.join('') };
}
interface Held {
  readonly id: string;
  readonly resourceType: string;
  readonly status?: string;
  readonly subject?: { readonly reference: string };
  readonly birthDate?: string;
}
const held = (type: string): Held[] =>
  (JSON.parse(JSON.stringify(server.repository.all())) as Held[]).filter(r => r.resourceType === type);

const id = /id: (\S+?),?$/m.exec(firstText)?.[1]?.replace(/[",]/g, '') ?? '';
const mrn = /identifiers: \[\{ system: [^,]+, value: "?([^"} ]+)"? \}\]/.exec(firstText)?.[1] ?? '';
const otherPatient = (text: string) =>
  text
    .replaceAll(mrn, 'MRN-OTHER')
    .replace(/birthDate: \S+/, 'birthDate: 1931-03-04')
    .replace(/^ {2}name: .*$/m, '  name: Ilse Branquinho');

const flags = () => ({ to: server.baseUrl, data: join(folder, 'data') });

describe('versions and patients, from the command line', () => {
  const documents = (status: string) => held('DocumentReference').filter(d => d.status === status);

  it('finds what it needs in the example', () => {
    expect([id, mrn].every(word => word.length > 3)).toBe(true);
    expect(otherPatient(firstText)).toMatch(/MRN-OTHER[\s\S]*1931-03-04/);
  });

  it('a correction without --previous finds the earlier version in the outbox: one report is current', async () => {
    const first = write('v1.yaml', firstText);
    const second = write('v2.yaml', secondText);
    expect(await run(o => send(first, flags(), o))).toMatchObject({ code: 0 });
    expect(await run(o => send(second, flags(), o))).toMatchObject({ code: 0 });
    expect([documents('current').length, documents('superseded').length]).toEqual([1, 1]);
  });

  it('and without the outbox it is asked for: nothing is sent', async () => {
    const second = write('v2.yaml', secondText);
    const elsewhere = { ...flags(), data: join(folder, 'empty') };
    for (const more of [elsewhere, { ...elsewhere, dryRun: true }, { ...flags(), direct: true }]) {
      const { code, said } = await run(o => send(second, more, o));
      expect(code).toBe(1);
      expect(said).toContain('correction.earlier-not-given');
    }
    expect(documents('current')).toHaveLength(1);
  });

  it.each<[string, object]>([
    ['through the outbox', {}],
    ['with another outbox', { data: join(folder, 'third') }],
    ['directly', { direct: true }],
    ['as a dry run', { dryRun: true }],
  ])('the same case under another patient is refused, %s', async (_how, more) => {
    const before = JSON.stringify(held('Procedure'));
    const wrong = write('wrong.yaml', otherPatient(firstText));
    const { code, said } = await run(o => send(wrong, { ...flags(), ...more }, o));
    expect(said).toContain('delivery.case-of-another-patient');
    expect(code).toBe(1);
    expect(JSON.stringify(held('Procedure'))).toBe(before);
  });

  it('a case is moved: withdrawn under the old patient, reported under the right one, naming the old case', async () => {
    const data = join(folder, 'moved');
    const from = write('old.yaml', firstText.replaceAll(id, 'MV-1'));
    const to = write('new.yaml', otherPatient(firstText).replaceAll(id, 'MV-2'));
    expect((await run(o => send(from, { ...flags(), data }, o))).code).toBe(0);
    const by = { by: 'op', why: 'Taken from the wrong list' };
    const { code, said } = await run(o => move(from, to, { ...flags(), data, ...by }, o));
    expect(said).toContain('does not name case MV-1');
    expect(code).toBe(0);
    const [right] = held('Patient').filter(p => p.birthDate === '1931-03-04');
    const text = (r: Held) => JSON.stringify(r);
    const ofOld = held('Procedure').filter(p => text(p).includes('"MV-1"'));
    const ofNew = held('Procedure').filter(p => text(p).includes('"MV-2"'));
    expect(ofOld.map(p => p.status)).toEqual(['entered-in-error']);
    expect(ofNew.map(p => [p.status, p.subject?.reference])).toEqual([['completed', `Patient/${right?.id}`]]);
    const origin = held('Provenance').filter(
      p => text(p).includes('record MV-2') && text(p).includes('"MV-1"'),
    );
    expect(origin).toHaveLength(1);
    // The same command again, as after a crash in the middle: nothing is written twice.
    const before = JSON.stringify(server.repository.all());
    expect((await run(o => move(from, to, { ...flags(), data, ...by }, o))).code).toBe(0);
    expect(JSON.stringify(server.repository.all())).toBe(before);
  });

  it.each<[string, (text: string) => string, object, RegExp]>([
    ['the same case', text => otherPatient(text), {}, /needs a case number of its own/],
    ['the same patient', text => text.replaceAll(id, 'MV-3'), {}, /same patient number/],
    [
      'nobody who says so',
      text => otherPatient(text).replaceAll(id, 'MV-3'),
      { by: 'nobody' },
      /key of its team/,
    ],
    ['no reason', text => otherPatient(text).replaceAll(id, 'MV-3'), { why: undefined }, /--why/],
  ])('a move is refused with %s', async (_what, edit, more, message) => {
    const [from, to] = [write('a.yaml', firstText), write('b.yaml', edit(firstText))];
    const given = { ...flags(), by: 'op', why: 'x', ...more };
    await expect(run(o => move(from, to, given, o))).rejects.toThrow(message);
  });

  it('to let a near match pass, the item, who and why are asked for', async () => {
    const given = { ...flags(), accept: ['name'] };
    await expect(run(o => retry(undefined, given, o))).rejects.toThrow(/name the item/);
  });
});

describe('a move that failed on the way is finished by the same command', () => {
  const refuse = {
    status: 422,
    body: '{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"invalid"}]}',
  };
  const isOf = (body: string, number: string) =>
    body.includes(`"value":"${number}"`) || body.includes(`"${number}"`);
  const ways: [string, (number: { old: string; now: string }) => InTheWay, readonly number[]][] = [
    ['offline', () => () => 'cut', [4]],
    [
      'the withdrawal refused',
      ({ now }) =>
        ({ method, body }) =>
          method === 'POST' && !isOf(body, now) ? refuse : undefined,
      [3],
    ],
    [
      'the new case refused after the withdrawal',
      ({ now }) =>
        ({ method, body }) =>
          method === 'POST' && isOf(body, now) && !body.includes('entered-in-error') ? refuse : undefined,
      [3],
    ],
    [
      'an answer lost',
      () => {
        let lost = 0;
        return ({ method }) => (method === 'POST' && lost++ === 0 ? 'lose the answer' : undefined);
      },
      // Asked for in time where the other half takes long enough.
      [0, 4],
    ],
  ];
  it.each(sampled('ways in which a move is cut short', ways, 2))('%s', async (name, way, expected) => {
    const between = await passingOn(server.baseUrl);
    try {
      const numbers = { old: `${name.length}-OLD`, now: `${name.length}-NEW` };
      const path = write(
        `site-${name.length}.yaml`,
        `casetallySite: 1
name: Invented Hospital
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a01
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include, practitioner: name, organization: name, location: name }
destinations:
  records: { url: "${between.baseUrl}", timeout: 30, searchLag: 0, metadataAge: 0 }
`,
      );
      const given = { to: 'records', site: path, data: join(folder, `failing-${name.length}`) };
      const from = write(`o-${name.length}.yaml`, firstText.replaceAll(id, numbers.old));
      const to = write(`n-${name.length}.yaml`, otherPatient(firstText).replaceAll(id, numbers.now));
      expect(await run(o => send(from, given, o))).toMatchObject({ code: 0 });
      between.inTheWay = way(numbers);
      const by = { by: 'op', why: 'Taken from the wrong list' };
      const first = await run(o => move(from, to, { ...given, ...by }, o));
      expect(expected, first.said).toContain(first.code);
      between.inTheWay = () => undefined;
      const second = await run(o => move(from, to, { ...given, ...by }, o));
      expect([second.code, second.said]).toEqual([0, expect.any(String)]);
      const of = (number: string) =>
        held('Procedure')
          .filter(p => JSON.stringify(p).includes(`"${number}"`))
          .map(p => p.status);
      expect([of(numbers.old), of(numbers.now)]).toEqual([['entered-in-error'], ['completed']]);
    } finally {
      between.close();
    }
  });

  it('with a new record that is not right yet: nothing is withdrawn before it is', async () => {
    const given = { ...flags(), data: join(folder, 'not-right') };
    const from = write('nr-1.yaml', firstText.replaceAll(id, 'NR-1'));
    expect((await run(o => send(from, given, o))).code).toBe(0);
    const bad = write(
      'nr-2.yaml',
      otherPatient(firstText)
        .replaceAll(id, 'NR-2')
        .replace(/^ {2}- \{ at:.*do: insert.*$/m, ''),
    );
    const by = { by: 'op', why: 'Taken from the wrong list' };
    expect((await run(o => move(from, bad, { ...given, ...by }, o))).code).toBe(1);
    const states = held('Procedure').filter(p => JSON.stringify(p).includes('"NR-1"'));
    expect(states.map(p => p.status)).toEqual(['completed']);
    const outbox = await openSqliteOutbox(join(folder, 'not-right', 'outbox.db'), { newId: () => 'x' });
    expect((await outbox.list()).map(({ state }) => state)).toEqual(['delivered']);
    await outbox.close();
    const right = write('nr-2.yaml', otherPatient(firstText).replaceAll(id, 'NR-2'));
    expect((await run(o => move(from, right, { ...given, ...by }, o))).code).toBe(0);
  });
});
