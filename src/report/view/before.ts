import type { Printer } from '../print/printer.js';
import { absent, detail, fact, facts, none, type Stated, said, section, table } from './blocks.js';
import { foundAllergies } from './found.js';
import type { Block, Fact, Section } from './model.js';

/** One line an allergy, those that the case showed first: `penicillin: rash (mild)`. */
export function allergies(p: Printer): Fact {
  const list = p.record.before?.allergies;
  const found = foundAllergies(p).map(what => p.say('allergies.found', { what }));
  const born = found.length > 0;
  if (list === undefined)
    return fact(p, 'allergies', born ? said(...found, p.say('allergies.beforeNotRecorded')) : absent(p));
  if (list === 'none')
    return fact(
      p,
      'allergies',
      born ? said(...found, p.say('allergies.noneBefore')) : none(p, 'allergies.none'),
    );
  const lines = list.map(({ to, reaction, severity }) => {
    const about = [reaction && p.value(reaction), severity && p.say(`severity.${severity}`)].filter(
      word => word !== undefined,
    );
    return about.length > 0
      ? p.say('field', { label: p.drug(to.text), value: about.join(', ') })
      : p.drug(to.text);
  });
  return fact(p, 'allergies', said(...found, ...lines));
}

/** `cholecystitis (resolved, until 2019)`. */
function conditions(p: Printer): string[] | undefined {
  return p.record.before?.conditions?.map(({ text, status, since, until }) => {
    const detail = [
      ...(status ? [p.say(`conditionStatus.${status}`)] : []),
      ...(since ? [p.say('condition.since', { value: p.when(since) })] : []),
      ...(until ? [p.say('condition.until', { value: p.when(until) })] : []),
    ];
    return detail.length === 0
      ? text
      : p.say('complication.short', { what: text, detail: detail.join(', ') });
  });
}

/** One line a drug: name, dose, last dose, plan. */
export function anticoagulants(p: Printer): Fact {
  const list = p.record.before?.anticoagulants;
  if (list === undefined) return fact(p, 'anticoagulants', absent(p));
  if (list === 'none') return fact(p, 'anticoagulants', none(p, 'anticoagulants.none'));
  const column = (key: 'lastDose' | 'plan', value: string | undefined) =>
    value === undefined ? [] : [p.say('field', { label: p.say(`column.${key}`), value })];
  return fact(
    p,
    'anticoagulants',
    said(
      ...list.map(({ drug, dose, lastDose, plan }) =>
        [
          dose === undefined ? p.drug(drug.text) : `${p.drug(drug.text)} ${dose}`,
          ...column('lastDose', lastDose && p.when(lastDose)),
          ...column('plan', plan),
        ].join('; '),
      ),
    ),
  );
}

function attempts(p: Printer): Block[] {
  const list = p.record.before?.earlierAttempts;
  if (!list) return [];
  return [
    table(
      p,
      'table.attempts',
      ['attempt', 'when', 'result'],
      list.map((attempt, index) => ({
        key: `before.earlierAttempts[${index}]`,
        cells: [
          p.caseKind(attempt.what),
          [
            attempt.date && p.when(attempt.date),
            attempt.case && p.say('field', { label: p.say('label.caseId'), value: attempt.case.value }),
          ],
          attempt.result,
        ],
      })),
    ),
  ];
}

function carried(p: Printer): Block[] {
  const list = Object.entries(p.record.devices ?? {}).filter(([, device]) => device.carried);
  if (list.length === 0) return [];
  return [
    table(
      p,
      'table.carried',
      ['device', 'lies', 'placed'],
      list.map(([key, { carried: from }]) => ({
        key: `devices.${key}`,
        cells: [
          p.device(key),
          from?.site && p.place(from.site.text),
          [
            from?.date && p.when(from.date),
            from?.case && p.say('field', { label: p.say('label.caseId'), value: from.case.value }),
            from?.use === undefined
              ? undefined
              : p.say('field', { label: p.say('label.registerUse'), value: from.use }),
            from?.note,
          ],
        ],
      })),
    ),
  ];
}

type Lab = NonNullable<NonNullable<Printer['record']['before']>['labs']>[number];

/** Values with the time of the sample; no table where there are none. */
export function labs(
  p: Printer,
  caption: 'table.labs' | 'table.laterLabs',
  path: string,
  list: readonly Lab[] = [],
): Block[] {
  if (list.length === 0) return [];
  return [
    table(
      p,
      caption,
      ['test', 'result', 'sampled'],
      list.map((lab, index) => ({
        key: `${path}[${index}]`,
        cells: [p.value(lab.what.text), p.quantity(lab.value), p.when(lab.at)],
      })),
    ),
  ];
}

function fasting(p: Printer): Stated {
  const entry = p.record.before?.fasting;
  if (!entry) return absent(p);
  const line = (key: 'food' | 'clearFluids', value: string | undefined) =>
    value === undefined ? undefined : p.say('field', { label: p.say(`label.${key}`), value });
  const stated = said(
    line('food', entry.food && p.when(entry.food)),
    line('clearFluids', entry.clearFluids && p.when(entry.clearFluids)),
    entry.note,
  );
  return stated.lines.length > 0 ? stated : absent(p);
}

export function beforeSection(p: Printer): Section {
  const { before } = p.record;
  const missing = (label: 'labs' | 'imaging' | 'attempts', there: boolean) =>
    there ? [] : [fact(p, label, absent(p))];
  return section(p, 'before', [
    facts(p, undefined, [
      allergies(p),
      anticoagulants(p),
      ...missing('labs', (before?.labs ?? []).length > 0),
      fact(p, 'fasting', fasting(p)),
      ...detail(p, 'imaging', before?.imaging),
      ...missing('imaging', before?.imaging !== undefined),
      ...missing('attempts', before?.earlierAttempts !== undefined),
      ...detail(p, 'otherConditions', conditions(p)),
      ...detail(p, 'observations', before?.observations),
    ]),
    ...labs(p, 'table.labs', 'before.labs', before?.labs),
    ...attempts(p),
    ...carried(p),
  ]);
}

function consent(p: Printer): Fact[] {
  const entry = p.record.before?.consent;
  if (!entry) return [fact(p, 'consent', absent(p))];
  return [
    fact(p, 'consent', said(p.say(`consent.${entry.status}`))),
    ...detail(p, 'consentBy', entry.by),
    ...detail(p, 'takenBy', entry.takenBy && p.person(entry.takenBy)),
    ...detail(p, 'at', entry.at && p.when(entry.at)),
    ...detail(p, 'note', entry.note),
  ];
}

function checklist(p: Printer): Fact[] {
  const list = p.record.before?.checklist;
  if (!list) return [fact(p, 'checklist', absent(p))];
  const step = (label: 'signIn' | 'timeOut' | 'signOut') => {
    const at = list[label];
    return fact(p, label, at ? said(p.moment(at)) : absent(p));
  };
  return [step('signIn'), step('timeOut'), step('signOut'), ...detail(p, 'note', list.note)];
}

export function consentSection(p: Printer): Section {
  return section(p, 'consent', [
    facts(p, 'label.consent', consent(p), 2),
    facts(p, 'label.checklist', checklist(p), 2),
  ]);
}
