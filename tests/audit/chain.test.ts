import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { BEFORE_ALL, canonicalJson, digestOfEntry, headText, readHead } from '../../src/audit/chain.js';
import { type AuditFact, auditEvent, auditKinds, type Who } from '../../src/audit/event.js';
import { exportedEntries, type KeptEntry, verifyTrail } from '../../src/audit/verify.js';
import { createValidator, loadDefinitions, type Validator } from '../../src/conformance/index.js';

const fact = (more: Partial<AuditFact> = {}): AuditFact => ({
  ...{ id: '7c8b1b1e-52f0-4d0a-9a55-3c1f6d3f0a02', kind: 'look', at: Date.parse('2026-03-01T08:00:00Z') },
  ...{ who: { kind: 'token', name: 'ward-3' }, from: '192.0.2.7', doing: 'GET /outbox/:id' },
  ...{ outcome: 200, request: '9d4ed77a', about: ['item-1'] },
  ...more,
});

/** A trail of so many entries, each by its own digest. */
function trailOf(count: number): KeptEntry[] {
  const entries: KeptEntry[] = [];
  for (let n = 1; n <= count; n += 1) {
    const previous = entries.at(-1)?.digest ?? BEFORE_ALL;
    const text = canonicalJson(auditEvent(fact({ id: `id-${n}`, about: [`item-${n}`] }), { n, previous }));
    entries.push({ n, text, digest: digestOfEntry(text) });
  }
  return entries;
}

describe('canonical JSON', () => {
  it('is that of RFC 8785, 3.2.3 and 3.2.4: order by UTF-16 units, no space, ECMAScript texts and numbers', () => {
    // The example of RFC 8785, 3.2.3.
    const sorted = canonicalJson({
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    });
    expect([...sorted.matchAll(/:"([^"]+)"/g)].map(([, value]) => value)).toEqual([
      ...['Carriage Return', 'One', 'Control', 'Latin Small Letter O With Diaeresis', 'Euro Sign'],
      ...['Emoji: Grinning Face', 'Hebrew Letter Dalet With Dagesh'],
    ]);
    expect(canonicalJson({ b: [1e21, 4.5, null, true], a: '\u20ac$\u000f\nA\'B"\\' })).toBe(
      '{"a":"\u20ac$\\u000f\\nA\'B\\"\\\\","b":[1e+21,4.5,null,true]}',
    );
    expect(canonicalJson({ a: undefined, b: 1 })).toBe('{"b":1}');
  });
});

describe('entries', () => {
  let validator: Validator;
  beforeAll(() => {
    validator = createValidator(loadDefinitions());
  });
  const people: Who[] = [
    { kind: 'person', name: 'Ana Reyes', issuer: 'https://id.example.org', subject: '4711' },
    { kind: 'typed', name: 'Ana Reyes' },
    { kind: 'token', name: 'ward-3' },
    { kind: 'nobody' },
  ];
  const outcomes = ['begun', 200, 401, 503] as const;
  it.each(
    auditKinds.flatMap(kind =>
      people.flatMap(who => outcomes.map(outcome => [kind, who.kind, outcome, who] as const)),
    ),
  )('%s by %s, %s, conforms to AuditEvent of FHIR R4', (kind, _, outcome, who) => {
    const event = auditEvent(fact({ kind, who, outcome }), { n: 1, previous: BEFORE_ALL });
    const { issues } = validator.validateText(JSON.stringify(event));
    expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
    expect(event.outcome).toBe({ begun: undefined, 200: '0', 401: '4', 503: '8' }[outcome]);
  });

  it.each([
    ['POST /cases', 'C'],
    ['POST /outbox/:id/park', 'U'],
    ['PUT /drafts/:id', 'U'],
    ['DELETE /drafts/:id', 'D'],
  ])('a change by %s has the action %s', (doing, action) => {
    expect(auditEvent(fact({ kind: 'change', doing }), { n: 1, previous: BEFORE_ALL }).action).toBe(action);
  });
});

describe('a trail', () => {
  const sound = trailOf(6);
  const head = { n: 6, digest: sound[5]!.digest };

  it('is sound as it was written, and its digests are SHA-256 of what an export has on each line', async () => {
    expect(await verifyTrail(sound)).toEqual({ sound: true, head });
    const [line] = sound.map(({ text }) => text ?? '');
    expect(
      createHash('sha256')
        .update(line ?? '')
        .digest('hex'),
    ).toBe(sound[0]?.digest);
    expect(sound[1]?.text).toContain(sound[0]?.digest);
    expect(await verifyTrail([])).toEqual({ sound: true, head: undefined });
  });

  const edited = (n: number, change: (text: string) => string, anew = false): KeptEntry[] =>
    sound.map(entry => {
      if (entry.n !== n) return entry;
      const text = change(entry.text ?? '');
      return { ...entry, text, ...(anew && { digest: digestOfEntry(text) }) };
    });
  const broken: [string, KeptEntry[], number, RegExp][] = [
    ['an entry that was edited', edited(3, t => t.replace('ward-3', 'ward-4')), 3, /not what its digest/],
    ['one that was edited with its digest', edited(3, t => t.replace('ward-3', 'ward-4'), true), 4, /follow/],
    ['one that is no JSON', edited(2, () => '{', true), 2, /cannot be read/],
    [
      'one that is another resource',
      edited(2, () => '{"resourceType":"Patient"}', true),
      2,
      /cannot be read/,
    ],
    [
      'one with another order of members',
      edited(6, t => JSON.stringify(JSON.parse(t), null, 1), true),
      6,
      /canonical/,
    ],
    [
      'one that cannot be opened',
      [{ ...sound[0]!, text: undefined }, ...sound.slice(1)],
      1,
      /cannot be read/,
    ],
    ['one that was cut out', sound.filter(({ n }) => n !== 4), 4, /entry 4 is missing/],
    ['the first cut off', sound.slice(1), 1, /entry 1 is missing/],
    [
      'two that changed places with their numbers',
      sound.map((e, i) => (i === 2 ? { ...sound[3]!, n: 3 } : i === 3 ? { ...sound[2]!, n: 4 } : e)),
      3,
      /calls itself 4/,
    ],
    [
      'a chain that is not one',
      edited(2, t => t.replace(/"detail":\[.*?\]/, '"detail":7'), true),
      2,
      /nothing/,
    ],
  ];
  it.each(broken)('%s is named', async (_, entries, n, why) => {
    expect(await verifyTrail(entries)).toEqual({ sound: false, n, why: expect.stringMatching(why) });
  });

  it('whose end was cut off, or that was written anew, is told by a head that was kept elsewhere', async () => {
    const cut = sound.slice(0, 4);
    expect(await verifyTrail(cut)).toMatchObject({ sound: true });
    expect(await verifyTrail(cut, head)).toMatchObject({ sound: false, n: 5 });
    expect(await verifyTrail([], head)).toMatchObject({ sound: false, n: 1 });
    expect(await verifyTrail(sound, { n: 4, digest: sound[3]!.digest })).toMatchObject({ sound: true });
    expect(await verifyTrail(sound, { n: 4, digest: BEFORE_ALL })).toMatchObject({ sound: false, n: 4 });
  });

  it('is verified from its export alone, and a line that was changed, cut or moved is named', async () => {
    const lines = sound.map(({ text }) => text ?? '');
    expect(await verifyTrail(exportedEntries([...lines, '']))).toEqual({ sound: true, head });
    const other = lines.with(2, (lines[2] ?? '').replace('item-3', 'item-9'));
    expect(await verifyTrail(exportedEntries(other))).toMatchObject({ sound: false, n: 4 });
    const moved = lines.with(1, lines[2] ?? '').with(2, lines[1] ?? '');
    expect(await verifyTrail(exportedEntries(moved))).toMatchObject({ sound: false, n: 2 });
  });

  it('has a head that is read as it is written', () => {
    expect(readHead(` ${headText(head)}\n`)).toEqual(head);
    for (const text of ['', '6', `6:${head.digest}0`, `-1:${head.digest}`, head.digest])
      expect(readHead(text)).toBeUndefined();
  });
});
