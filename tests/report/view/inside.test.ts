import { expect, it } from 'vitest';
import { assess } from '../../../src/clinical/assess.js';
import { buildView } from '../../../src/report/view/view.js';
import { exampleText } from '../../support/examples.js';
import { read } from '../../support/report/assess.js';

it('a line of left about coils that were lost and others that lie wrong is told once, with its number', () => {
  const text = exampleText('embolisation.yaml')
    .replace(/(.*"01:34-05:00".*)/, '$1\n  - { at: "01:36-05:00", do: lose, device: coils, count: 1 }')
    .replace(
      'left:\n  - { device: beads',
      'left:\n  - { device: coils, purpose: unintended, count: 2, site: Left renal artery }\n  - { device: beads',
    )
    .replace('device: coils, count: 4, purpose: intended', 'device: coils, count: 2, purpose: intended');
  const record = read(text);
  const { inside } = buildView(record, assess(record));
  const coils = inside.filter(({ name }) => name.includes('5 mm x 15 cm'));
  expect(coils.map(({ name, alert }) => [name, alert])).toEqual([
    ['5 mm x 15 cm detachable coil, 2 of them', true],
    ['5 mm x 15 cm detachable coil, 2 of them', false],
  ]);
});
