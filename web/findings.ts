import type { Finding, Severity } from './answers.js';
import { byId, counted, element } from './element.js';
import { lineButton } from './record-text.js';

const lists = byId('finding-lists', HTMLElement);
const count = byId('count', HTMLElement);

const WORDS: Readonly<Record<Severity, string>> = {
  fatal: 'Fatal',
  error: 'Error',
  warning: 'Warning',
  information: 'Information',
};

export const isError = (f: Finding) => f.severity === 'fatal' || f.severity === 'error';
export const isWarning = (f: Finding) => f.severity === 'warning';

/** Shows findings, the worst first. @returns their number in words. */
export function showFindings(findings: readonly Finding[]): string {
  const notes = findings.filter(f => f.severity === 'information');
  const groups = [
    ['Errors: the case must not leave', findings.filter(isError)],
    ['Warnings', findings.filter(isWarning)],
    ['Information', notes],
  ] as const;
  lists.replaceChildren(
    ...groups.flatMap(([title, group]) =>
      group.length === 0 ? [] : [element('h3', {}, `${title} (${group.length})`), findingList(group)],
    ),
  );
  const words = [
    counted(findings.filter(isError).length, 'error'),
    counted(findings.filter(isWarning).length, 'warning'),
    counted(notes.length, 'note'),
  ].join(', ');
  count.textContent = `${words}.`;
  return words;
}

export function findingList(findings: readonly Finding[]): HTMLElement {
  return element('ol', { class: 'findings' }, ...findings.map(shown));
}

function shown(f: Finding): HTMLElement {
  const { line, acknowledged } = f;
  const head = element('p', { class: 'head' }, element('strong', {}, WORDS[f.severity]));
  if (line !== undefined) head.append(lineButton(line));
  if (f.path !== '') head.append(element('code', {}, f.path));
  const item = element(
    'li',
    { class: f.severity },
    head,
    element('p', {}, f.message),
    element('p', {}, element('b', {}, 'Remedy: '), f.remedy),
  );
  if (acknowledged) {
    const by = acknowledged.by === undefined ? '' : ` (${acknowledged.by})`;
    item.append(element('p', {}, element('b', {}, 'Acknowledged: '), `${acknowledged.reason}${by}`));
  }
  item.append(element('p', { class: 'hint' }, `Basis: ${f.basis}. Code: `, element('code', {}, f.code)));
  return item;
}
