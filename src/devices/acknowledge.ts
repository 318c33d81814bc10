import { type Finding, finding, stops } from '../findings/finding.js';
import { message } from '../findings/message.js';
import { entriesOf } from '../record/entries.js';
import type { CaseRecord } from '../record/schema/record.js';

type Acknowledgement = NonNullable<CaseRecord['acknowledged']>[number];

/**
 * Marks the findings that the record acknowledges, with the reason and who gave it. Only warnings and information
 * can be acknowledged; an error stays what it is, and an acknowledgement that meets nothing is said.
 */
export function applyAcknowledgements(findings: readonly Finding[], record: CaseRecord): Finding[] {
  const entries = record.acknowledged ?? [];
  const marked = findings.map(found => {
    const entry = stops(found) ? undefined : entries.find(one => meets(one, found, record));
    if (!entry || found.acknowledged) return found;
    const by = entry.by === undefined ? {} : { by: entry.by };
    return { ...found, acknowledged: { reason: entry.reason, ...by } };
  });
  const notes = entries.flatMap((entry, index): Finding[] => {
    const met = findings.filter(found => meets(entry, found, record));
    const path = `acknowledged[${index}]`;
    const params = {
      code: entry.finding,
      about: entry.about === undefined ? '' : message('acknowledged.about', { what: entry.about }),
    };
    if (met.length === 0) return [finding('acknowledged.nothing', path, params)];
    return met.some(found => !stops(found)) ? [] : [finding('acknowledged.error', path, params)];
  });
  return [...marked, ...notes];
}

function meets({ finding: code, about }: Acknowledgement, found: Finding, record: CaseRecord): boolean {
  if (found.code !== code) return false;
  return about === undefined || isAbout(about, found, record);
}

/** `about` is a path (or the beginning of one), or the key of a device or target that the finding's line names. */
function isAbout(about: string, { path }: Finding, record: CaseRecord): boolean {
  if (path === about || path.startsWith(`${about}.`) || path.startsWith(`${about}[`)) return true;
  const place = /^(devices|targets)\.([A-Za-z][\w-]*)|^(events|left)\[(\d+)\]/.exec(path);
  if (!place) return false;
  if (place[1]) return place[2] === about;
  const index = Number(place[4]);
  if (place[3] === 'left') {
    const line = entriesOf(record.left)[index];
    return line?.device === about || line?.part === about;
  }
  const event = record.events?.[index];
  if (!event) return false;
  const { device, part, replaces, over, through, across, target } = event;
  return [device, part, replaces, over, through, across, target, ...(event.with ?? [])].includes(about);
}
