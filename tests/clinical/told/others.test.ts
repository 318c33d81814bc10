import { describe, expect, it } from 'vitest';
import { checkContrast } from '../../../src/clinical/agreement/contrast.js';
import { found, recordOf } from '../agreement/support.js';

// Trade knowledge: common practice, no source.
const differs = 'clinical.measurement-differs';

describe('the size of a vessel in a text', () => {
  const record = (text: string) =>
    recordOf(`targets: { vein: { what: Left ovarian vein, side: left, lesion: reflux, diameter: 9 mm } }
findings: [{ text: "${text}", about: vein }]`);

  it.each(['Left ovarian vein of 6 mm', 'Left ovarian vein 19 mm wide', 'vein of 6 mm'])(
    'differs: %s',
    text => {
      expect(found(differs, record(text))).toEqual([`${differs} findings[0].text`]);
    },
  );

  it.each([
    'Left ovarian vein of 9 mm',
    'Left ovarian vein of about 1 cm',
    'Right ovarian vein of 6 mm',
    'Left renal vein of 12 mm',
    'Cyst of 30 mm beside the left ovarian vein',
  ])('silent: %s', text => {
    expect(found(differs, record(text))).toEqual([]);
  });
});

describe('what several places tell of one doing', () => {
  const body = (
    rest: string,
  ) => `access: [{ key: a, site: Right common femoral artery, side: right, closure: "CLOSED" }]
devices:
  tube: { kind: gastrostomy tube, size: 16 Fr x 23 cm }
events:
  - { at: "09:20", do: inflate, device: tube, volume: 10 mL }
  - { at: "09:40", do: compress, access: a, duration: 10 min }
aftercare:
  - { key: b, do: "TASK", device: tube, due: 1 week, by: ward }
${rest}`;
  const record = (closed: string, task: string) =>
    recordOf(body('').replace('CLOSED', closed).replace('TASK', task));

  it.each([
    ['pressure by hand for 25 min', 'Flush', 'access[0].closure'],
    ['pressure by hand', 'Check the 20 mL of water in the balloon', 'aftercare[0].do'],
  ])('differs: %s, %s', (closed, task, path) => {
    expect(found(differs, record(closed, task))).toEqual([`${differs} ${path}`]);
  });

  it.each([
    ['pressure by hand for 10 minutes', 'Check the 10 mL of water in the balloon'],
    ['pressure by hand', 'Flush with 20 mL of water'],
    ['pressure by hand', 'Empty the balloon, 12 mL come back'],
  ])('silent: %s, %s', (closed, task) => {
    expect(found(differs, record(closed, task))).toEqual([]);
  });
});

describe('vital signs, scores and values in words', () => {
  const record = (text: string) =>
    recordOf(`before: { labs: [{ what: haemoglobin, value: 84 g/L, at: 2024-03-13T08:00 }] }
outcome: { overall: successful, condition: "${text}" }`);

  it.each(['Temperature 73.6 °C', 'blood pressure 48/84 mmHg', 'Pain 14 of 10', 'oxygen saturation 198 %'])(
    'cannot be: %s',
    text => {
      expect(found('clinical.value-unlikely', record(text))).toEqual([
        'clinical.value-unlikely outcome.condition',
      ]);
    },
  );

  it.each([
    'Temperature 36.8 °C',
    'blood pressure 118/64 mmHg',
    'Pain 4 of 10',
    'pulse 122, saturation 95 %',
  ])('can be: %s', text => {
    expect(found('clinical.value-unlikely', record(text))).toEqual([]);
  });

  it('digits changed over differ, a value of another hour does not', () => {
    expect(found(differs, record('Haemoglobin 48 g/L'))).toEqual([`${differs} outcome.condition`]);
    expect(found(differs, record('Haemoglobin 84 g/L'))).toEqual([]);
    expect(found(differs, record('Haemoglobin 91 g/L'))).toEqual([]);
  });
});

describe('strengths, locks and numbers by side', () => {
  const record = (agent: string, conclusion: string) =>
    recordOf(`devices:
  cath: { kind: selective catheter, size: 5 Fr x 100 cm }
  a: { kind: coil, count: 3 }
  b: { kind: coil, count: 2 }
events:
  - { at: "09:10", do: inject, device: cath, agent: polidocanol foam 3 %, volume: 5 mL }
  - { at: "09:20", do: inject, device: cath, agent: "${agent}", volume: 5 mL }
left:
  - { device: a, count: 3, site: Left ovarian vein, purpose: intended }
  - { device: b, count: 2, site: Right ovarian vein, purpose: intended }
conclusion: "${conclusion}"`);

  it('differ', () => {
    expect(found(differs, record('polidocanol foam 30 %', 'Done.'))).toEqual([`${differs} events[1].agent`]);
    expect(found(differs, record('saline', 'Coils, two on the left and three on the right.'))).toEqual([
      `${differs} conclusion`,
    ]);
  });

  it('are silent', () => {
    expect(found(differs, record('polidocanol foam 2 %', 'Done.'))).toEqual([]);
    expect(found(differs, record('saline 0.9 %', 'Coils, three on the left and two on the right.'))).toEqual(
      [],
    );
  });
});

describe('the total of contrast', () => {
  const record = (total: string, agent = 'iohexol') =>
    recordOf(`devices: { cath: { kind: selective catheter, size: 5 Fr x 100 cm } }
events:
  - { at: "09:10", do: inject, device: cath, agent: iohexol, volume: 10 mL }
  - { at: "09:20", do: inject, device: cath, ${agent === '' ? '' : `agent: ${agent}, `}volume: 12 mL }
contrast: [{ agent: iohexol, volume: ${total}, route: intravenous }]`);
  const codes = (total: string, agent?: string) =>
    checkContrast(record(total, agent)).map(({ code }) => code);

  it('is not twice what went in', () => {
    expect(codes('44 mL')).toEqual(['clinical.contrast-differs']);
    expect(codes('30 mL')).toEqual([]);
    expect(codes('44 mL', '')).toEqual([]);
  });
});
