import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

// What is told and what is silent: common practice, no source.
const drain = `devices: { d: { kind: drainage catheter, size: 8 Fr } }
events: [{ at: "09:10", do: insert, device: d }]`;
const plan = (aftercare: string, more = '', left = '') =>
  found(
    'clinical.plan-differs',
    recordOf(`${drain}
left: [{ device: d, purpose: temporary, until: { condition: dry }${left} }]
aftercare: [${aftercare}]
${more}`),
  );
const criterion = (is: string, value: string, action: string) =>
  `{ do: Look at the drain, device: d, due: 2 days, by: ward, criteria: [{ measure: drain output, is: ${is}, value: ${value}, action: ${action} }] }`;

describe('limits of aftercare against themselves', () => {
  it.each([
    [
      'a call within the limit',
      '{ do: Keep the pressure under 140 mmHg, by: ward, call: doctor under 140 mmHg }',
    ],
    ['a drain that comes out when it brings much', criterion('over', '20 mL', 'the drain may come out')],
    ['the same, at least', criterion('at least', '200 mL', 'take the drain out')],
    [
      'flushed after it is out',
      '{ do: Take the drain out, device: d, due: 5 days, by: ward }, { do: Flush the drain, device: d, due: 9 days, by: ward }',
    ],
  ])('%s', (_, aftercare) => {
    expect(plan(aftercare)).toHaveLength(1);
  });

  it.each([
    [
      'a call beyond the limit',
      '{ do: Keep the pressure under 140 mmHg, by: ward, call: doctor over 140 mmHg }',
    ],
    [
      'a call at another limit',
      '{ do: Keep the pressure under 140 mmHg, by: ward, call: doctor under 90 mmHg }',
    ],
    ['a drain that comes out when it brings little', criterion('under', '20 mL', 'the drain may come out')],
    ['much, and it stays', criterion('over', '200 mL', 'it stays and does not come out')],
    ['much, and somebody is called', criterion('over', '200 mL', 'call the team')],
    [
      'flushed before it is out',
      '{ do: Flush the drain, device: d, due: 2 days, by: ward }, { do: Take the drain out, device: d, due: 5 days, by: ward }',
    ],
    [
      'flushed after an exchange',
      '{ do: Exchange the drain, device: d, due: 5 days, by: ward }, { do: Flush the drain, device: d, due: 9 days, by: ward }',
    ],
    [
      'the wound seen after it is out',
      '{ do: Take the drain out, device: d, due: 5 days, by: ward }, { do: Look at the wound, device: d, due: 9 days, by: ward }',
    ],
  ])('silent: %s', (_, aftercare) => {
    expect(plan(aftercare)).toEqual([]);
  });

  it('the output under which it comes out, told twice', () => {
    const at = (value: string, advice: string) =>
      plan(criterion('under', value, 'the drain may come out'), `advice: { ward: ["${advice}"] }`);
    expect(at('2000 mL', 'The drain stays until it brings less than 200 mL a day.')).toEqual([
      'clinical.plan-differs aftercare[0].criteria[0].value',
    ]);
    expect(at('200 mL', 'The drain stays until it brings less than 200 mL a day.')).toEqual([]);
    expect(at('20 mL', 'Call if the drain brings less than 200 mL a day.')).toEqual([]);
    expect(at('20 mL', 'The drain stays for a week.')).toEqual([]);
  });

  it('stays longer than it may', () => {
    const task = '{ do: Look at the drain, device: d, due: 1 day, by: ward }';
    const left = (until: string, latest: string) =>
      found(
        'clinical.plan-differs',
        recordOf(`${drain}
left: [{ device: d, purpose: temporary, until: { condition: dry, date: ${until} }, latest: ${latest} }]
aftercare: [${task}]`),
      );
    expect(left('6 months', '3 months')).toEqual(['clinical.plan-differs left[0].until']);
    expect(left('6 weeks', '3 months')).toEqual([]);
    expect(left('3 months', '3 months')).toEqual([]);
  });

  it('home, and watched on the ward for a day', () => {
    const goes = (disposition: string, hours: string, by = 'ward') =>
      plan(
        `{ do: Check the groin, every: 1 hour, for: ${hours}, by: ${by} }`,
        `outcome: { overall: successful, disposition: "${disposition}" }`,
      );
    expect(goes('Home with his wife at noon', '24 hours')).toEqual([
      'clinical.plan-differs outcome.disposition',
    ]);
    for (const [where, hours, by] of [
      ['Home after a night on the ward', '24 hours', undefined],
      ['Day ward, home at 19:00', '24 hours', undefined],
      ['Home', '2 hours', undefined],
      ['Home', '24 hours', 'patient'],
      ['Ward', '24 hours', undefined],
      ['Nursing home tomorrow', '24 hours', undefined],
    ] as const)
      expect(goes(where, hours, by), where).toEqual([]);
  });

  it('a drug that readers are told not to give', () => {
    const given = (task: string, advice: string) =>
      found(
        'clinical.anticoagulant-differs',
        recordOf(`${drain}
left: [{ device: d, purpose: temporary, until: { condition: dry } }]
aftercare: [{ do: ${task}, due: 6 hours, by: ward }]
advice: { ward: ["${advice}"] }`),
      );
    expect(given('Enoxaparin 40 mg under the skin', 'No enoxaparin before surgery allows it.')).toHaveLength(
      1,
    );
    expect(given('Enoxaparin 40 mg under the skin', 'Enoxaparin as usual.')).toEqual([]);
    expect(given('Ask whether enoxaparin may be given', 'No enoxaparin before surgery allows it.')).toEqual(
      [],
    );
    expect(given('Tinzaparin 40 mg under the skin', 'No enoxaparin for now.')).toEqual([]);
  });

  it('a temperature in the other unit', () => {
    const limit = (value: string) =>
      found(
        'clinical.value-unlikely',
        recordOf(`${drain}
left: [{ device: d, purpose: temporary, until: { condition: dry } }]
aftercare: [{ do: Look, due: 1 day, by: ward, criteria: [{ measure: temperature, is: at least, value: ${value}, action: call }] }]`),
      );
    expect(limit('38.0 °F')).toHaveLength(1);
    expect(limit('38.0 °C')).toEqual([]);
    expect(limit('101 °F')).toEqual([]);
  });
});
