import { entryOf, without, withValue } from './place.js';
import {
  deviceAt,
  entryAt,
  event,
  eventAfterEntry,
  eventBefore,
  left,
  set,
  until,
  type Way,
} from './told.js';

/** Remedies that ask for an event, or for a line of 'left'. */
export const eventWays: readonly Way[] = [
  {
    says: /Take it out of 'left'|take this line out|^Take (?:one|the line) (?:of the two events )?out\b|^Keep one of the two lines/,
    does: told => [without(told.data, entryOf(told.found.path))],
  },
  {
    says: /list ([\w-]+) in 'left'(?: with purpose (\w+)(?: or (\w+), and until)?| with until or latest)/,
    does: (told, [, device, purpose, other]) =>
      purpose === undefined
        ? [left(told, { device, until }), left(told, { device, latest: '6 weeks' })]
        : other === undefined
          ? [left(told, { device, purpose })]
          : [left(told, { device, purpose, until }), left(told, { device, purpose: other, until })],
  },
  {
    says: /^List it in 'left' with purpose (unintended), site and until/,
    does: (told, [, purpose]) => [
      left(told, { device: deviceAt(told), purpose, site: 'Pulmonary artery', until }),
    ],
  },
  {
    says: /(?<!Before that, )add an event remove with device ([\w-]+)((?:,? and one with part [\w-]+)*)(?=[,.])/,
    does: (told, [, device, more = '']) => [
      [...more.matchAll(/part ([\w-]+)/g)].reduce(
        (data, [, part]) => event({ ...told, data }, { do: 'remove', device, part }),
        event(told, { do: 'remove', device }),
      ),
    ],
  },
  {
    says: /^Add an event remove with device ([\w-]+) and part ([\w-]+), or list the part in 'left' with purpose (\w+) or (\w+), and until/,
    does: (told, [, device, part, ...purposes]) => [
      event(told, { do: 'remove', device, part }),
      ...purposes.map(purpose => left(told, { device, part, purpose, until })),
    ],
  },
  {
    says: /^Add the removal of ([\w-]+) (?:\([^)]*\) )?before that/,
    does: (told, [, device]) => [eventBefore(told, { do: 'remove', device })],
  },
  {
    says: /^Before that, add an event remove with device ([\w-]+)((?:,? and one with part [\w-]+)*),/,
    does: (told, [, device, more = '']) => [
      [undefined, ...[...more.matchAll(/part ([\w-]+)/g)].map(([, part]) => part)].reduceRight(
        (data, part) => eventBefore({ ...told, data }, { do: 'remove', device, ...(part && { part }) }),
        told.data,
      ),
    ],
  },
  {
    says: /^Add an event remove with device ([\w-]+), part ([\w-]+) and count (\d+), or list the part in 'left' with purpose (\w+) or (\w+), and until/,
    does: (told, [, device, part, count, ...purposes]) => [
      event(told, { do: 'remove', device, part, count: Number(count) }),
      ...purposes.map(purpose => left(told, { device, part, purpose, until })),
    ],
  },
  {
    says: /^Take the task out/,
    does: told => [without(told.data, entryOf(told.found.path))],
  },
  {
    says: /^It is \w+ at (\d\d:\d\d) \(events\[(\d+)\]\): mend one of the two times, and the order of the lines/,
    does: (told, [, at, other]) => {
      const copy = structuredClone(told.data);
      const events = copy['events'];
      if (!Array.isArray(events)) return [];
      const [entry] = events.splice(Number(/\d+/.exec(told.found.path)?.[0]), 1);
      events.splice(Number(other), 0, { ...entry, at });
      return [copy];
    },
  },
  {
    says: /^Correct its time to one before (\d\d):(\d\d)/,
    does: (told, [, hours, minutes]) => [
      set(
        told,
        new Date(Date.UTC(2000, 0, 1, Number(hours), Number(minutes) - 1)).toISOString().slice(11, 16),
      ),
    ],
  },
  {
    says: /^Add the removal (?:between|before)/,
    does: told => [eventBefore(told, { do: 'remove', device: deviceAt(told) })],
  },
  {
    says: /^Add the deflation/,
    does: told => [eventBefore(told, { do: 'deflate', device: deviceAt(told) })],
  },
  {
    says: /^Add the inflation/,
    does: told => [eventBefore(told, { do: 'inflate', device: deviceAt(told) })],
  },
  {
    says: /^Add deploy, release or detach after it went in/,
    does: told =>
      ['deploy', 'release', 'detach'].map(verb =>
        eventAfterEntry(told, { do: verb, device: deviceAt(told) }),
      ),
  },
  {
    says: /\badd inflate with the volume/,
    does: told => [event(told, { do: 'inflate', device: deviceAt(told), volume: '5 mL' })],
  },
  { says: /\badd lock\b/, does: told => [event(told, { do: 'lock', device: deviceAt(told) })] },
  {
    says: /^Add unlock/,
    does: told => [eventBefore(told, { do: 'unlock', device: deviceAt(told) })],
  },
  {
    says: /set use to opened unused, unopened or failed/,
    does: told =>
      ['opened unused', 'unopened', 'failed'].map(use =>
        withValue(told.data, `devices.${deviceAt(told)}.use`, use),
      ),
  },
  {
    says: /^Add purpose: temporary, intended or unintended/,
    does: told =>
      ['temporary', 'intended', 'unintended'].map(purpose =>
        withValue(told.data, `${entryOf(told.found.path)}.purpose`, purpose),
      ),
  },
  {
    says: /^Add until or latest in left|until \/ latest under left/,
    does: told => [
      withValue(told.data, `${entryOf(told.found.path)}.until`, until),
      withValue(told.data, `${entryOf(told.found.path)}.latest`, '6 weeks'),
    ],
  },
  {
    says: /\bsay carried\b/,
    does: told => [withValue(told.data, `devices.${deviceAt(told)}.carried`, {})],
  },
  {
    says: /, or write (insert)\b/,
    does: (told, [, verb]) => [withValue(told.data, `${entryOf(told.found.path)}.do`, verb)],
  },
  {
    says: /^Add count to that line/,
    does: told => [
      withValue(told.data, `${entryOf(told.found.path)}.count`, Number(told.found.params['number'])),
    ],
  },
  {
    says: /^Add depth to the event that put the wire in/,
    does: told => {
      const events = told.data['events'];
      const wire: unknown = Reflect.get(entryAt(told), 'over');
      const index = Array.isArray(events)
        ? events.findIndex(one => Reflect.get(Object(one), 'device') === wire)
        : -1;
      return index < 0 ? [] : [withValue(told.data, `events[${index}].depth`, '30 cm')];
    },
  },
];
