import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import { message, type Param } from '../../findings/message.js';
import type { CaseRecord } from '../../record/schema/record.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

const isHost = (device: DeviceDetails | undefined) =>
  device !== undefined && (device.family === 'sheath' || device.traits.has('guiding'));

/**
 * A device cannot run over a wire and through a sheath that the wire does not run through. Which sheaths a wire runs
 * through is read from the events: the sheath that went in over it, and the one that it went through.
 */
export function checkWays(record: CaseRecord, devices: Devices): Finding[] {
  const hosts = new Map<string, Set<string>>();
  const snared = new Set<string>();
  const findings: Finding[] = [];
  const of = (key: string) => hosts.get(key) ?? new Set<string>();
  const events = (record.events ?? [])
    .map((event, i) => ({ event, path: `events[${i}]` }))
    .sort((a, b) => a.event.at.epoch - b.event.at.epoch);
  for (const { event, path } of events) {
    const { device: key, over, through } = event;
    if (event.do === 'capture' || event.do === 'retrieve')
      for (const one of [key, over, through]) if (one) snared.add(one);
    if (key === undefined || event.part !== undefined) continue;
    const host = through === undefined ? undefined : devices.get(through);
    if (event.do === 'remove' || event.do === 'peel away' || event.do === 'retrieve') {
      hosts.delete(key);
      for (const set of hosts.values()) set.delete(key);
      continue;
    }
    if (over !== undefined && through !== undefined && isHost(host) && !snared.has(over)) {
      const wire = of(over);
      if (wire.size > 0 && !wire.has(through) && !nested(through, wire, of))
        findings.push(
          finding('tally.other-side', path, {
            device: label(devices.get(key), key),
            wire: label(devices.get(over), over),
            sheath: label(host, through),
            other: label(devices.get([...wire][0] ?? ''), [...wire][0] ?? ''),
            time: event.at.clock,
          }),
        );
    }
    if (event.do !== 'insert' && event.do !== 'exchange' && event.do !== 'cross' && event.do !== 'advance')
      continue;
    const mine = hosts.get(key) ?? new Set<string>();
    if (event.do === 'insert' || event.do === 'exchange') mine.clear();
    if (through !== undefined)
      for (const one of isHost(host) ? [through, ...of(through)] : of(through)) mine.add(one);
    hosts.set(key, mine);
    // The wire that a sheath goes in over runs through it from then on.
    if (isHost(devices.get(key)) && over !== undefined) {
      if (event.do === 'exchange' && event.replaces !== undefined) of(over).delete(event.replaces);
      hosts.set(over, new Set([...of(over), key, ...mine]));
    }
  }
  return findings;
}

const nested = (host: string, wire: ReadonlySet<string>, of: (key: string) => ReadonlySet<string>) =>
  [...wire].some(one => of(one).has(host) || of(host).has(one));

const label = (device: DeviceDetails | undefined, key: string): Param =>
  device ? message('name.label', { key, name: device.said }) : key;
