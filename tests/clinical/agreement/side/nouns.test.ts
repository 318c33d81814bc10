import { describe, expect, it } from 'vitest';
import { found, recordOf } from '../support.js';

// Trade knowledge: common practice, no source.
const sides = (body: string) => found('clinical.side-differs', recordOf(body));

const buttock = `access: [{ key: b, site: Left buttock over the iliac bone, side: left }]`;
const drain = `indication: { text: Right chest drain lost last night }
conclusion: "Right chest drain placed anew."
findings: [{ text: drain left in the tract }]`;
const patient = (text: string) => `advice: { patient: ["${text}"] }`;

describe('a thing on one side in all of the record but one text', () => {
  it.each([
    [buttock, patient('Take the plaster on the right buttock off tomorrow.'), 'advice.patient[0]'],
    [buttock, 'aftercare: [{ do: Look at the right buttock, by: ward }]', 'aftercare[0].do'],
    [buttock, 'conclusion: Bone sampled through the right buttock', 'conclusion'],
    [drain, 'advice: { referrer: ["The left chest drain stays for a week."] }', 'advice.referrer[0]'],
    [
      'indication: { text: Fracture of the right hip two weeks ago, conditions: [Fracture of the right hip] }',
      'advice: { ward: ["Surgery of the left hip tomorrow."] }',
      'advice.ward[0]',
    ],
    [drain, 'outcome: { overall: successful, text: Left chest drain on suction }', 'outcome.text'],
    [
      'targets: { h: { what: Hip, side: left } }',
      patient('Keep the plaster on the right hip dry'),
      'advice.patient[0]',
    ],
  ])('%s %s differs', (body, text, path) => {
    expect(sides(`${body}\n${text}`)).toEqual([`clinical.side-differs ${path}`]);
  });

  it.each([
    [buttock, patient('Take the plaster on the left buttock off tomorrow.')],
    [buttock, patient('Lie on the right buttock for 2 hours.')],
    [buttock, patient('Pain of the right buttock is not of this case.')],
    [buttock, `before: { observations: Sore right buttock }\n${patient('Dress the right buttock.')}`],
    [buttock, `indication: { text: Claudication of both buttocks }\n${patient('Watch the right buttock.')}`],
    [buttock, patient('Sit on the right buttock.')],
    [buttock, patient('Take the stick in the right hand.')],
    [
      'targets: { g: { what: Graft of the right upper arm, side: right } }',
      patient('Spare the veins of the left arm'),
    ],
    [buttock, patient('Blood pressure at the right arm.')],
    [drain, 'advice: { ward: ["The left chest drain stays."] }\nplanned: Two chest drains'],
    [drain, patient('The drain left in place comes out on Friday')],
    [
      'access: [{ key: a, site: Left upper arm, side: left }]\nfindings: [{ text: Left upper arm swollen }]',
      patient('Lift with the right upper arm only'),
    ],
    [
      `access: [{ key: g, site: Left common femoral artery, side: left }]
indication: { text: Ulcer of the right leg }\nbefore: { imaging: Right leg arteries narrowed }`,
      patient('Keep the left leg warm'),
    ],
  ])('%s %s is silent', (body, text) => {
    expect(sides(`${body}\n${text}`)).toEqual([]);
  });
});

describe('conditions of the request and imaging', () => {
  const both = (condition: string, imaging: string) =>
    sides(`indication: { text: Pain, conditions: [${condition}] }\nbefore: { imaging: "${imaging}" }`);

  it('the same thing on two sides differs', () => {
    expect(both('Fracture of the right ninth rib', 'CT: left ninth rib broken, no air')).toEqual([
      'clinical.side-differs indication.conditions[0]',
    ]);
    expect(both('Cyst of the right elbow', 'Ultrasound: cyst of the left elbow')).toEqual([
      'clinical.side-differs indication.conditions[0]',
    ]);
  });

  it.each([
    ['Fracture of the right ninth rib', 'CT: right ninth rib broken, left lung clear'],
    ['Fracture of the right ninth rib', 'CT: left ninth rib normal; right one broken'],
    ['Fracture of the right ninth rib', 'CT: left tenth rib broken'],
    ['Right hip replacement', 'CT: arthritis of the left hip'],
    ['Old fracture of the right ninth rib', 'CT: left ninth rib broken'],
  ])('%s and %s is silent', (condition, imaging) => {
    expect(both(condition, imaging)).toEqual([]);
  });
});
