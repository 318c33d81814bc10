import type { Lexicon } from '../../findings/say.js';
import type { ReportView } from '../view/model.js';
import type { Item } from './items.js';

/** What a patient takes home: the same choice and words as the patient's HTML page. */
export function patientItems({ identity, patient, status, date }: ReportView, say: Lexicon['say']): Item[] {
  const fact = (label: string, value: string, strong = false) => ({
    label,
    lines: [value],
    said: true,
    strong,
  });
  const notices: Item[] =
    patient.notices.length === 0
      ? []
      : [{ kind: 'box', heavy: true, items: [{ kind: 'text', lines: patient.notices, look: 'strong' }] }];
  const listed = (title: string, lines: readonly string[]): Item[] =>
    lines.length === 0 ? [] : [{ kind: 'heading', text: title }, bullets(lines)];
  return [
    { kind: 'title', above: '', text: say('patient.title') },
    {
      kind: 'facts',
      caption: say('table.patient'),
      across: 2,
      framed: true,
      facts: [
        fact(say('label.name'), identity.name, true),
        fact(say('label.birthDate'), identity.birthDate),
        fact(say('patient.date'), date),
        fact(say('patient.identifiers'), identity.identifiers),
        fact(say('patient.report'), status.line),
        fact(say('label.signature'), status.signature),
      ],
    },
    ...notices,
    { kind: 'heading', text: say('patient.headDone') },
    ...patient.done.map(text),
    { kind: 'heading', text: say('patient.headInside') },
    patient.insideNone === ''
      ? {
          kind: 'list',
          entries: patient.inside.map(({ name, lines, alert }) => ({
            lines: [name, ...lines],
            strong: true,
            alert,
          })),
        }
      : text(patient.insideNone),
    ...listed(say('patient.headDo'), patient.tasks),
    ...listed(say('patient.headAdvice'), patient.advice),
    {
      kind: 'box',
      heavy: false,
      items: [
        { kind: 'heading', text: say('patient.headHelp') },
        text(say('patientHelp.intro')),
        bullets(patient.help),
        { kind: 'text', lines: [patient.call], look: 'strong' },
        text(say('patientHelp.emergency')),
      ],
    },
    ...listed(say('patient.headNext'), patient.next),
    { kind: 'heading', text: say('patient.headKnow') },
    ...patient.know.map(text),
  ];
}

const text = (line: string): Item => ({ kind: 'text', lines: [line], look: 'plain' });
const bullets = (lines: readonly string[]): Item => ({
  kind: 'list',
  entries: lines.map(line => ({ lines: [line], strong: false, alert: false })),
});
