import { expect, it } from 'vitest';
import { accountOf } from './account.js';

it('puts the missing start first where times of a night stand in the wrong order without it', () => {
  const night = {
    devices: { wire: { kind: 'guidewire' } },
    events: [
      { at: '23:50', do: 'insert', device: 'wire' },
      { at: '00:20', do: 'remove', device: 'wire' },
    ],
  };
  const remedies = (started: string | undefined) =>
    accountOf({ case: { started }, ...night }).said.map(line => line.split(' -> ')[1]);
  expect(remedies('23:40')).toEqual([]);
  expect(new Set(remedies(undefined)).size).toBe(1);
  expect(remedies(undefined)[0]).toMatch(/case\.started|started/);
});
