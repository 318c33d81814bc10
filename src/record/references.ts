import { type Finding, finding } from '../findings/finding.js';
import { type Message, message } from '../findings/message.js';
import { entriesOf } from './entries.js';
import type { CaseRecord } from './schema/record.js';
import { suggest } from './suggest.js';

type Referred = 'device' | 'target' | 'access' | 'team member' | 'image' | 'specimen';

/** Checks that every key that a line refers to exists, and that no list names the same key twice. */
export function checkReferences(record: CaseRecord): Finding[] {
  const findings: Finding[] = [];
  const devices = Object.keys(record.devices ?? {});
  const targets = Object.keys(record.targets ?? {});
  const team = listKeys('team', record.team);
  const access = listKeys('access', record.access ?? []);
  const images = listKeys('images', record.images ?? []);
  const specimens = listKeys('specimens', entriesOf(record.specimens));

  function listKeys(list: string, entries: readonly { readonly key?: string | undefined }[]): string[] {
    const seen = new Set<string>();
    entries.forEach((entry, index) => {
      if (entry.key === undefined) return;
      if (seen.has(entry.key))
        findings.push(finding('record.duplicate-member', `${list}[${index}].key`, { key: entry.key, list }));
      seen.add(entry.key);
    });
    return [...seen];
  }

  const needOf = (key: string | undefined, path: string, what: Message, known: readonly string[]) => {
    if (key === undefined || known.includes(key)) return;
    const suggestion = known.length > 0 ? suggest(key, known) : message('answer.declare', { what });
    findings.push(finding('record.unknown-reference', path, { what, key, suggestion }));
  };
  const need = (key: string | undefined, path: string, what: Referred, known: readonly string[]) =>
    needOf(key, path, message(`referred.${what}`), known);
  const needPart = (device: string | undefined, part: string | undefined, path: string) => {
    if (part === undefined || (device !== undefined && !devices.includes(device))) return;
    needOf(
      part,
      path,
      message('referred.part', { device: device ?? message('referred.anyDevice') }),
      Object.keys((device && record.devices?.[device]?.parts) || {}),
    );
  };

  record.events?.forEach((event, index) => {
    const path = `events[${index}]`;
    for (const field of ['device', 'replaces', 'over', 'through'] as const)
      need(event[field], `${path}.${field}`, 'device', devices);
    event.with?.forEach((key, i) => {
      need(key, `${path}.with[${i}]`, 'device', devices);
    });
    needPart(event.device, event.part, `${path}.part`);
    for (const field of ['across', 'target'] as const)
      need(event[field], `${path}.${field}`, 'target', targets);
    need(event.access, `${path}.access`, 'access', access);
    need(event.by, `${path}.by`, 'team member', team);
    need(event.image, `${path}.image`, 'image', images);
    need(event.specimen, `${path}.specimen`, 'specimen', specimens);
  });
  if (record.left !== 'none')
    record.left?.forEach((entry, index) => {
      need(entry.device, `left[${index}].device`, 'device', devices);
      needPart(entry.device, entry.part, `left[${index}].part`);
    });
  record.missing?.forEach((entry, index) => {
    need(entry.device, `missing[${index}].device`, 'device', devices);
    needPart(entry.device, entry.part, `missing[${index}].part`);
    need(entry.by, `missing[${index}].by`, 'team member', team);
  });
  record.aftercare?.forEach((item, index) => {
    need(item.device, `aftercare[${index}].device`, 'device', devices);
  });
  record.findings?.forEach((entry, index) => {
    need(entry.about, `findings[${index}].about`, 'target', targets);
  });
  if (record.specimens !== 'none')
    record.specimens?.forEach((entry, index) => {
      need(entry.from, `specimens[${index}].from`, 'target', targets);
    });
  if (record.complications !== 'none')
    record.complications?.forEach((entry, index) => {
      need(entry.device, `complications[${index}].device`, 'device', devices);
      need(entry.target, `complications[${index}].target`, 'target', targets);
    });
  record.outcome?.measurements?.forEach((entry, index) => {
    need(entry.target, `outcome.measurements[${index}].target`, 'target', targets);
  });
  record.outcome?.grades?.forEach((entry, index) => {
    need(entry.target, `outcome.grades[${index}].target`, 'target', targets);
  });
  if (record.drugs !== 'none')
    record.drugs?.forEach((entry, index) => {
      need(entry.by, `drugs[${index}].by`, 'team member', team);
    });
  if (record.sedation !== 'none') need(record.sedation?.by, 'sedation.by', 'team member', team);
  need(record.before?.consent?.takenBy, 'before.consent.takenBy', 'team member', team);
  need(record.report.author, 'report.author', 'team member', team);
  need(record.report.change?.by, 'report.change.by', 'team member', team);
  record.acknowledged?.forEach((entry, index) => {
    need(entry.by, `acknowledged[${index}].by`, 'team member', team);
  });
  return findings;
}
