import { expect, it } from 'vitest';
import { soak } from './soak.js';

/* The short form of `npm run test:soak`: three destinations, one of which fails half the time. */
it('many cases to three destinations: none lost, none doubled, order of each patient kept, memory flat', async () => {
  const result = await soak({ cases: 150, patients: 15, seed: 1 });
  expect(result).toMatchObject({
    items: 450,
    delivered: 450,
    parked: 0,
    losses: 0,
    doubles: 0,
    outOfOrder: 0,
  });
  expect(result.faults).toBeGreaterThan(75);
  expect(result.heldLate).toBeLessThan(result.heldEarly + 8 * 1024 * 1024);
});
