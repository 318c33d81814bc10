import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { entriesOf } from '../../record/entries.js';
import type { Quantity } from '../../record/quantity.js';
import { remembered } from '../../record/remembered.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { type Dimension, unitOfCode } from '../../record/units.js';
import type { Written } from './beside.js';
import type { Recorded } from './claim.js';
import { agrees, type Figure, figuresIn } from './figure.js';
import { isTold } from './texts.js';

/** One thing that a case does or leaves, with the figure that several places tell of it. */
interface Topic {
  readonly dimension: Dimension;
  /** Words of the clause that make a figure one of this topic. */
  readonly words: RegExp;
  /** Words that make it one of something else. */
  readonly not?: RegExp;
  readonly fields: (record: CaseRecord) => readonly (Recorded & { readonly key?: string | undefined })[];
  /** What parts several of a kind: a device or a way in. */
  readonly by?: 'device' | 'access';
  /** Texts that tell it as it is and not as it may become. */
  readonly paths?: RegExp;
}

const at = (
  quantity: Quantity | undefined,
  place: string,
  key?: string,
): (Recorded & { key?: string | undefined })[] => (quantity ? [{ quantity, place, key }] : []);

/** `4 hours` as a quantity. */
const durationOf = (text: string | undefined) => figuresIn(text ?? '')[0]?.quantity;

const eventsOf = (record: CaseRecord) =>
  (record.events ?? []).map((event, i) => ({ event, path: `events[${i}]` }));

/** Common practice, no source. */
const topics: readonly Topic[] = [
  {
    dimension: 'duration',
    words: /\b(?:press(?:ed|ure|ing)?|compress\w*|manual(?:ly)?|by hand)\b/i,
    not: /\b(?:blood pressure|mmHg|band|dressing|stocking|bandage|balloon|every|each)\b/i,
    paths: /^(?:access|events|outcome\.text|conclusion)/,
    by: 'access',
    fields: record =>
      eventsOf(record).flatMap(({ event: { do: verb, duration, access }, path }) =>
        verb === 'compress' ? at(duration, `${path}.duration`, access) : [],
      ),
  },
  {
    dimension: 'duration',
    words: /\b(?:flat|bed ?rest|in bed|lying|lie|straight|supine)\b/i,
    not: /\b(?:then|after|every|each|head)\b/i,
    paths: /^(?:outcome\.disposition|advice|aftercare|conclusion)/,
    fields: record =>
      (record.aftercare ?? []).flatMap(({ do: task, for: duration }, i) =>
        /\b(?:flat|bed ?rest|in bed|lying|lie|straight|supine)\b/i.test(task)
          ? at(durationOf(duration), `aftercare[${i}].for`)
          : [],
      ),
  },
  {
    dimension: 'volume',
    words: /\bband\b/i,
    fields: record =>
      eventsOf(record).flatMap(({ event: { volume, device, do: verb }, path }) =>
        verb === 'inflate' && /\bband\b/i.test(record.devices?.[device ?? '']?.kind ?? '')
          ? at(volume, `${path}.volume`)
          : [],
      ),
  },
  {
    dimension: 'volume',
    words: /\b(?:lock(?:ed)?|each lumen|per lumen|both lumens|lumens?|prim(?:e|ed|ing) volume)\b/i,
    not: /\bflush\w*\b/i,
    by: 'device',
    fields: record => [
      ...entriesOf(record.left).flatMap(({ lock, device }, i) =>
        at(lock?.volume, `left[${i}].lock.volume`, device),
      ),
      ...eventsOf(record).flatMap(({ event: { do: verb, agent, volume, device }, path }) =>
        verb === 'lock' || (verb === 'inject' && /\b(?:lock|citrate|taurolidine)\b/i.test(agent ?? ''))
          ? at(volume, `${path}.volume`, device)
          : [],
      ),
    ],
  },
  {
    dimension: 'volume',
    words: /\bballoons?\b/i,
    not: /\b(?:empty|emptied|deflat\w+|came out|removed|aspirat\w+)\b/i,
    by: 'device',
    fields: record =>
      eventsOf(record).flatMap(({ event: { do: verb, volume, device }, path }) =>
        verb === 'inflate' ? at(volume, `${path}.volume`, device) : [],
      ),
  },
  {
    dimension: 'length',
    words: /\b(?:ring|disc|disk|flange|bumper|skin mark|mark(?:ed)?|at the skin)\b/i,
    by: 'device',
    not: /\b(?:fibroid|tumou?r|prolapse|herniat\w+|wide|diameter)\b/i,
    fields: record => [
      ...entriesOf(record.left).flatMap(({ depth, device }, i) => at(depth, `left[${i}].depth`, device)),
      ...eventsOf(record).flatMap(({ event: { depth, device }, path }) => at(depth, `${path}.depth`, device)),
    ],
  },
  {
    dimension: 'pressure',
    words: /\b(?:inflat\w+|dilat\w+|balloons?|burst|waist)\b/i,
    not: /\bmm ?Hg\b|gradient|blood|\b(?:waist|nominal|rated)\b/i,
    paths: /^(?:findings|outcome|conclusion)/,
    fields: record =>
      eventsOf(record).flatMap(({ event: { do: verb, pressure }, path }) =>
        verb === 'inflate' ? at(pressure, `${path}.pressure`) : [],
      ),
  },
  {
    dimension: 'duration',
    words: /\binflat\w+\b|\bballoon (?:up|held|kept|left)\b/i,
    fields: record =>
      eventsOf(record).flatMap(({ event: { do: verb, duration }, path }) =>
        verb === 'inflate' ? at(duration, `${path}.duration`) : [],
      ),
  },
  {
    dimension: 'duration',
    words: /\b(?:ablat\w+|burn(?:t|ed)?|froz\w+|freez\w+|microwav\w+|radio-?frequency|cryo\w*)\b/i,
    not: /\b(?:later|after|thaw\w*)\b/i,
    fields: record =>
      eventsOf(record).flatMap(({ event: { do: verb, duration }, path }) =>
        verb === 'ablate' ? at(duration, `${path}.duration`) : [],
      ),
  },
  {
    dimension: 'pressure',
    words:
      /\b(?:portal|wedged?|right atri\w+|pulmonary artery|caval?|hepatic vein|opening|pelvic|systemic|venous|mean) (?:\w+ )?pressure\b|\bpressure (?:in|of) the\b/i,
    not: /\bblood\b|\bfrom\b|\bby hand\b/i,
    paths: /^(?:events|findings|outcome|conclusion)/,
    fields: record => [
      ...eventsOf(record).flatMap(({ event: { do: verb, pressure }, path }) =>
        verb === 'inflate' ? [] : at(pressure, `${path}.pressure`),
      ),
      ...Object.entries(record.targets ?? {}).flatMap(([key, { pressureBefore, pressureAfter }]) => [
        ...at(pressureBefore, `targets.${key}.pressureBefore`),
        ...at(pressureAfter, `targets.${key}.pressureAfter`),
      ]),
    ],
  },
  {
    dimension: 'volume',
    words:
      /\b(?:blood loss|loss of blood|lost (?:about )?[\d.]+ ?m?L|[\d.]+ ?m?L (?:of )?(?:blood )?lost)\b/i,
    paths: /^(?:outcome|conclusion|findings)/,
    fields: record => {
      const loss = record.outcome?.bloodLoss;
      return typeof loss === 'object' ? at(loss, 'outcome.bloodLoss') : [];
    },
  },
  {
    dimension: 'massConcentration',
    words: /./,
    paths: /^(?:events|findings|outcome|conclusion)/,
    fields: record =>
      entriesOf(record.contrast).flatMap(({ concentration }, i) =>
        at(concentration, `contrast[${i}].concentration`),
      ),
  },
];

interface Spoken {
  readonly path: string;
  readonly clause: string;
  readonly figure: Figure;
  readonly key: string | undefined;
}

const clausesOf = remembered(text => text.slice(0, 2000).split(/[.;]\s+|[;\n]|,\s/));

function spokenOf(written: readonly Written[], { dimension, words, not, by, paths }: Topic): Spoken[] {
  return written
    .filter(({ path, early }) => !early && (paths?.test(path) ?? true))
    .flatMap(({ path, text, device, access }) =>
      clausesOf(text).flatMap(clause =>
        words.test(clause) && !not?.test(clause)
          ? figuresIn(clause).flatMap(figure =>
              unitOfCode(figure.quantity.code)?.dimension === dimension &&
              (isTold(clause, figure.index, figure.length) || /^(?:advice|aftercare)/.test(path))
                ? [
                    {
                      path,
                      clause,
                      figure,
                      key: by === 'device' ? device : by === 'access' ? access : undefined,
                    },
                  ]
                : [],
            )
          : [],
      ),
    );
}

const shared = /\b(?:each|per|both|every)\b/i;

/** The figure itself, or that of one of two lumens. */
function tells({ figure, clause }: Spoken, quantity: Quantity): boolean {
  if (agrees(figure, quantity) !== false) return true;
  const double = {
    ...figure,
    quantity: { ...figure.quantity, value: String(Number(figure.quantity.value) * 2) },
  };
  return shared.test(clause) && agrees(double, quantity) === true;
}

/** Figures of one topic in a text that no field of it has, or, where no field tells, no other text. */
export function checkTopics(record: CaseRecord, written: readonly Written[]): Finding[] {
  return topics.flatMap(topic => {
    const spoken = spokenOf(written, topic);
    if (spoken.length === 0) return [];
    const fields = topic.fields(record);
    return spoken.flatMap(one => {
      const mine = fields.filter(({ key }) => key === undefined || one.key === undefined || key === one.key);
      const texts = spoken
        .filter(
          two =>
            two.path !== one.path && (two.key === undefined || one.key === undefined || two.key === one.key),
        )
        .map(two => ({ quantity: two.figure.quantity, place: two.path }));
      const others = mine.length > 0 ? mine : fields.length > 0 ? [] : texts;
      const [first] = others;
      if (!first || others.some(({ quantity }) => tells(one, quantity))) return [];
      return [
        finding('clinical.measurement-differs', one.path, {
          what: message('measure.told', { text: one.clause.trim() }),
          value: { quantity: one.figure.quantity },
          other: { quantity: first.quantity },
          place: first.place,
        }),
      ];
    });
  });
}
