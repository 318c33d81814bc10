import { describe, expect, it } from 'vitest';
import { longCase } from '../../bench/long-case.js';
import { byHandled, eventsMoving, eventsOf, rowsOf } from '../../src/devices/by-device.js';
import { inOrder } from '../../src/devices/tally/state.js';
import { checkCase } from '../../src/pipeline/check.js';
import { unconfiguredSite } from '../../src/site/site.js';

/** Cases as tired people record them; the plain search through all events is the measure. */
const cases = [1, 2, 3].map(seed => {
  const { record, assessment } = checkCase(longCase(120, seed), unconfiguredSite);
  if (!record || !assessment) throw new Error(`${seed} cannot be read`);
  return { record, assessment };
});

describe.each(cases)('what is found by device', ({ record, assessment }) => {
  const events = record.events ?? [];
  const keys = [...Object.keys(record.devices ?? {}), 'nobody'];

  it.each(keys)('%s: the same as a search through all', key => {
    const moving = events.flatMap((event, index) =>
      event.device === key || event.with?.includes(key) ? [{ index, path: `events[${index}]`, event }] : [],
    );
    expect(eventsMoving(record, key)).toEqual(moving);
    expect(eventsOf(record, key)).toEqual(
      events.filter(({ device, replaces }) => device === key || replaces === key),
    );
    expect(rowsOf(assessment.tally, key)).toEqual(
      assessment.tally.entries.filter(({ device }) => device === key),
    );
  });

  it('keeps the order that events are given in', () => {
    const ordered = inOrder(record);
    for (const [key, list] of byHandled(ordered))
      expect(list).toEqual(ordered.filter(({ event }) => event.device === key || event.replaces === key));
  });

  it('tells an event once that names a device twice', () => {
    const twice = {
      ...record,
      events: events.slice(0, 1).map(event => ({ ...event, device: 'd1', with: ['d1'] })),
    };
    expect(eventsMoving(twice, 'd1')).toHaveLength(1);
  });
});
