import { describe, expect, it } from 'vitest';
import { keyOfSealed, sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';

const KEY = Buffer.alloc(32, 7).toString('base64');
const OTHER = Buffer.alloc(32, 9).toString('base64');
/** Sealed with the first of these keys by an earlier state of this software, at `i1/payload`. */
const EARLIER = 'ct1.d9db3f521052.hsKUFCIPTr92bGOg.Doot3rrQltLn5WxATJGRKQ.jgZ2yGFtu46S9aoiKlDnZ7I';
const [, ID = '', NONCE = '', TAG = '', BODY = ''] = EARLIER.split('.');

const failure = (work: () => unknown) => {
  try {
    return work();
  } catch (error) {
    return error;
  }
};

describe('sealed text', () => {
  it('of earlier states is opened, under the same id of its key, whichever place the key has', () => {
    expect(sealingWith([KEY]).open(EARLIER, 'i1/payload')).toBe('{"text":"ä ✓"}');
    expect(sealingWith([OTHER, KEY]).open(EARLIER, 'i1/payload')).toBe('{"text":"ä ✓"}');
    expect(sealingWith([OTHER, KEY, OTHER, KEY]).keys).toEqual(['a6a3d9e40399', 'd9db3f521052']);
  });

  it('is made with the first key, in five parts', () => {
    const { seal, open } = sealingWith([OTHER, KEY]);
    const sealed = seal('', 'i1/payload');
    expect(sealed).toMatch(/^ct1\.a6a3d9e40399\.[\w-]{16}\.[\w-]{22}\.$/);
    expect(open(sealed, 'i1/payload')).toBe('');
    expect(() => sealingWith([KEY]).open(sealed, 'i1/payload')).toThrow('another key');
  });

  // A tag that is cut is easier to forge: NIST SP 800-38D, appendix C.
  it.each([
    ['a cut tag', [ID, NONCE, TAG.slice(0, 6), BODY]],
    ['no tag', [ID, NONCE, '', BODY]],
    ['another nonce', [ID, TAG.slice(0, 16), TAG, BODY]],
    ['a cut body', [ID, NONCE, TAG, BODY.slice(0, -4)]],
    ['no body', [ID, NONCE, TAG]],
    ['no nonce', [ID]],
  ])('with %s was changed or cut', (_what, parts) => {
    const sealed = ['ct1', ...parts].join('.');
    expect(failure(() => sealingWith([KEY]).open(sealed, 'i1/payload'))).toMatchObject({
      code: 'outbox-unreadable',
      message: 'What is sealed at i1/payload was changed or cut',
    });
  });

  it.each([
    ['{"a":1}', 'not sealed'],
    ['', 'not sealed'],
    [EARLIER.replace('ct1', 'ct2'), 'not sealed'],
    ['ct1', 'sealed with another key ()'],
    ['ct1.0123456789ab.x.y.z', 'sealed with another key (0123456789ab)'],
    [`ct1.${'x'.repeat(100)}`, `sealed with another key (${'x'.repeat(16)})`],
  ])('is not %s', (text, why) => {
    expect(failure(() => sealingWith([KEY]).open(text, 'i1/payload'))).toMatchObject({
      code: 'outbox-key',
      message: `What is kept at i1/payload was ${why}`,
    });
  });

  it.each([
    [EARLIER, ID],
    ['ct1.0123456789ab.', '0123456789ab'],
    ['ct1.0123456789ab', undefined],
    ['ct1.0123456789a.', undefined],
    ['ct1.0123456789abc.', undefined],
    ['ct1.0123456789AB.', undefined],
    ['ct2.0123456789ab.', undefined],
    [' ct1.0123456789ab.', undefined],
    ['ct1x0123456789abx', undefined],
    ['', undefined],
  ])('%j tells its key', (text, id) => {
    expect(keyOfSealed(text)).toBe(id);
  });
});

it.each(['c2hvcnQ=', '', Buffer.alloc(33, 7).toString('base64'), 'CANARY'.repeat(40)])(
  'the key %j is none, and is not quoted',
  text => {
    expect(failure(() => sealingWith([KEY, text]))).toMatchObject({
      code: 'settings-invalid',
      message: 'An outbox key is 32 bytes in base64, as `openssl rand -base64 32` gives',
    });
  },
);

it('without a key everything is kept as it is, and what is sealed is told by its place', () => {
  const { seal, open, keys } = unsealed;
  expect([seal('{"a":1}', 'x'), open('{"a":1}', 'x'), keys]).toEqual(['{"a":1}', '{"a":1}', []]);
  expect(failure(() => open(EARLIER, 'i1/payload'))).toMatchObject({
    code: 'outbox-key',
    message: 'What is kept at i1/payload is sealed, and no key was given: set CASETALLY_OUTBOX_KEY',
  });
});
