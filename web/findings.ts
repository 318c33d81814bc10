import type { Finding } from './answers.js';
import { byId, element } from './element.js';
import { lineButton } from './record-text.js';
import { counted, say, sayWith } from './words.js';

const lists = byId('finding-lists', HTMLElement);
const count = byId('count', HTMLElement);

export const isError = (f: Finding) => f.severity === 'fatal' || f.severity === 'error';
export const isWarning = (f: Finding) => f.severity === 'warning';

/** Shows findings as the service orders them, the worst for the patient first. @returns their number in words. */
export function showFindings(findings: readonly Finding[]): string {
  const causes = new Set(findings.map(keyOf));
  const alone = findings.filter(f => !f.follows || !causes.has(keyOf(f.follows)));
  const notes = alone.filter(f => f.severity === 'information');
  const groups = [
    ['screen.errors', alone.filter(isError)],
    ['screen.warnings', alone.filter(isWarning)],
    ['screen.notes', notes],
  ] as const;
  lists.replaceChildren(
    ...groups.flatMap(([title, group]) =>
      group.length === 0
        ? []
        : [element('h3', {}, say(title, { n: group.length })), findingList(group, findings)],
    ),
  );
  const words = say('screen.counts', {
    errors: counted('terminal.errors', alone.filter(isError).length),
    warnings: counted('terminal.warnings', alone.filter(isWarning).length),
    notes: counted('terminal.notes', notes.length),
  });
  count.textContent = `${words}.`;
  return words;
}

/** @param all those among which stand what follows from the ones shown */
export function findingList(findings: readonly Finding[], all: readonly Finding[] = []): HTMLElement {
  const following = (f: Finding) =>
    all.filter(other => other !== f && other.follows && keyOf(other.follows) === keyOf(f));
  return element('ol', { class: 'findings' }, ...findings.map(f => shown(f, following(f))));
}

const keyOf = ({ code, path }: Pick<Finding, 'code' | 'path'>) => `${code} ${path}`;

/** One finding; what follows from it is folded under it. */
function shown(f: Finding, following: readonly Finding[] = []): HTMLElement {
  const { line, acknowledged } = f;
  const head = element('p', { class: 'head' }, element('strong', {}, say(`screen.${f.severity}`)));
  if (line !== undefined) head.append(lineButton(line));
  if (f.path !== '') head.append(element('code', {}, f.path));
  const item = element(
    'li',
    { class: f.severity },
    head,
    element('p', {}, f.message),
    element('p', {}, element('b', {}, say('screen.remedy')), ` ${f.remedy}`),
  );
  if (acknowledged) {
    const by = acknowledged.by === undefined ? '' : ` (${acknowledged.by})`;
    item.append(element('p', {}, element('b', {}, say('screen.accepted')), ` ${acknowledged.reason}${by}`));
  }
  item.append(
    element(
      'p',
      { class: 'hint' },
      ...sayWith('screen.basis', { basis: f.basis, code: element('code', {}, f.code) }),
    ),
  );
  if (following.length > 0)
    item.append(
      element(
        'details',
        {},
        element('summary', {}, say('screen.following', { n: following.length })),
        element('ol', { class: 'findings' }, ...following.map(other => shown(other))),
      ),
    );
  return item;
}
