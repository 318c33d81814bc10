import { describe, expect, it } from 'vitest';
import { isExactObject, parseExact } from '../../../src/delivery/answer/exact-json.js';
import { compareResource } from '../../../src/delivery/held/compare.js';
import { sameXhtml } from '../../../src/delivery/held/same-xhtml.js';

function object(text: string) {
  const value = parseExact(text);
  if (!isExactObject(value)) throw new Error('no object');
  return value;
}
const places = new Map([['urn:uuid:1', 'Patient/7']]);
const compare = (sent: string, held: string) =>
  compareResource(object(sent), object(held), places).map(d => [d.kind, d.path, d.alarm]);

/* What a server may assign: FHIR R4, Resource.id and Resource.meta, https://hl7.org/fhir/R4/resource.html. */
describe('compareResource', () => {
  it.each<[string, string, string, unknown[]]>([
    [
      'id and meta',
      '{"resourceType":"Device"}',
      '{"resourceType":"Device","id":"1","meta":{"versionId":"1"}}',
      [],
    ],
    [
      'a narrative of the server',
      '{"resourceType":"Device"}',
      '{"resourceType":"Device","text":{"status":"generated"}}',
      [],
    ],
    ['the order of elements', '{"a":1,"b":2}', '{"b":2,"a":1}', []],
    ['a rewritten reference', '{"s":{"reference":"urn:uuid:1"}}', '{"s":{"reference":"Patient/7"}}', []],
    [
      'one with a version',
      '{"s":{"reference":"urn:uuid:1"}}',
      '{"s":{"reference":"Patient/7/_history/2"}}',
      [],
    ],
    [
      'an absolute one',
      '{"s":{"reference":"urn:uuid:1"}}',
      '{"s":{"reference":"https://x/fhir/Patient/7"}}',
      [],
    ],
    [
      'a resolved criterion',
      '{"s":{"reference":"Patient?identifier=a|b"}}',
      '{"s":{"reference":"Patient/9"}}',
      [],
    ],
    [
      'an absolute literal',
      '{"s":{"reference":"Patient/9"}}',
      '{"s":{"reference":"https://x/Patient/9"}}',
      [],
    ],
  ])('takes as equal: %s', (_what, sent, held, expected) => {
    expect(compare(sent, held)).toEqual(expected);
  });

  it.each<[string, string, string, unknown[]]>([
    [
      'an element lost',
      '{"resourceType":"Device","note":"x"}',
      '{"resourceType":"Device"}',
      [['dropped', 'Device.note', false]],
    ],
    [
      'a lot number lost',
      '{"resourceType":"Device","lotNumber":"x"}',
      '{"resourceType":"Device"}',
      [['dropped', 'Device.lotNumber', true]],
    ],
    [
      'a UDI changed',
      '{"resourceType":"Device","udiCarrier":[{"carrierHRF":"a"}]}',
      '{"resourceType":"Device","udiCarrier":[{"carrierHRF":"b"}]}',
      [['changed', 'Device.udiCarrier[0].carrierHRF', true]],
    ],
    [
      'an element more',
      '{"resourceType":"Device"}',
      '{"resourceType":"Device","note":"x"}',
      [['added', 'Device.note', false]],
    ],
    ['a list cut short', '{"a":[1,2]}', '{"a":[1]}', [['dropped', 'Resource.a[1]', false]]],
    ['digits', '{"a":4.20}', '{"a":4.2}', [['digits', 'Resource.a', false]]],
    ['an exponent', '{"a":120}', '{"a":1.2E+2}', [['digits', 'Resource.a', false]]],
    ['another number', '{"a":4.20}', '{"a":4.21}', [['changed', 'Resource.a', false]]],
    [
      'a number that differs beyond double precision',
      '{"a":0.10000000000000000001}',
      '{"a":0.1}',
      [['changed', 'Resource.a', false]],
    ],
    ['a number as text', '{"a":1}', '{"a":"1"}', [['changed', 'Resource.a', false]]],
    [
      'another patient',
      '{"resourceType":"Procedure","subject":{"reference":"urn:uuid:1"}}',
      '{"resourceType":"Procedure","subject":{"reference":"Patient/8"}}',
      [['changed', 'Procedure.subject.reference', true]],
    ],
    [
      'another type',
      '{"s":{"reference":"Patient?identifier=a|b"}}',
      '{"s":{"reference":"Group/9"}}',
      [['changed', 'Resource.s.reference', false]],
    ],
    [
      'a placeholder left',
      '{"s":{"reference":"urn:uuid:1"}}',
      '{"s":{"reference":"urn:uuid:1"}}',
      [['placeholder-left', 'Resource.s.reference', true]],
    ],
  ])('tells: %s', (_what, sent, held, expected) => {
    expect(compare(sent, held)).toEqual(expected);
  });
});

/* Two writings of one document by XML 1.0: empty elements (3.1), attribute order (3.1), references (4.1). */
describe('sameXhtml', () => {
  it.each([
    ['<td></td>', '<td/>'],
    ['<p class="a" lang="en">x</p>', '<p lang="en" class="a">x</p>'],
    ['<p>&#233; &amp;</p>', '<p>é &amp;</p>'],
    ['<p>a\n  b</p>', '<p>a b</p>'],
    ['<tr> <td>a</td> </tr>', '<tr><td>a</td></tr>'],
  ])('%s is %s', (a, b) => {
    expect(sameXhtml(a, b)).toBe(true);
  });

  it.each([
    ['<p>7 Fr</p>', '<p>8 Fr</p>'],
    ['<p>ab</p>', '<p>a b</p>'],
    ['<p class="a">x</p>', '<p class="b">x</p>'],
    ['<b>x</b>', '<i>x</i>'],
    ['<p>x</p>', '<p>x'],
    ['<td/><td>a</td>', '<td>a</td><td/>'],
  ])('%s is not %s', (a, b) => {
    expect(sameXhtml(a, b)).toBe(false);
  });
});
