import type { DeviceDetails, DeviceTally } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { otherOrgan } from './kind-organ.js';

type Devices = ReadonlyMap<string, DeviceDetails>;

const putting = /\b(?:insertion|placement|implantation|insert(?:ed)?)\b/i;
const taking = /\b(?:retrieval|removal|extraction|explant\w*)\b/i;
const changing = /\b(?:exchange|replacement|change|revision|conversion|attempt\w*|and)\b/i;

/** Ways of ablation: a case has one of them, or names each. */
const ways: readonly RegExp[] = [
  /\bradiofrequency\b|\bRFA\b/i,
  /\bmicrowave\b|\bMWA\b/i,
  /\bcryo\w*/i,
  /\belectroporation\b|\bIRE\b/i,
  /\blaser\b/i,
];

/** Kind, title and what was done, held against each other where they rule each other out. */
export function checkKind(record: CaseRecord, devices: Devices, tally: DeviceTally): Finding[] {
  const { kind, procedure } = record.case;
  const title = procedure?.text ?? '';
  const differs = (path: string, text: string, other: string) =>
    finding('clinical.kind-differs', path, { text, other });
  if (opposite(kind, title)) return [differs('case.kind', kind, title)];
  const organ = otherOrgan(record);
  if (organ.length > 0) return organ;
  const used = [...devices.values()].filter(
    ({ entry }) => entry.use !== 'unopened' && entry.use !== 'opened unused',
  );
  const byTitle = ways.filter(way => way.test(title));
  const byKind = ways.filter(way => way.test(kind));
  const byDevices = ways.filter(way => used.some(device => way.test(`${device.kind} ${device.row ?? ''}`)));
  if (byKind.length > 0 && byTitle.length > 0 && !byKind.some(way => byTitle.includes(way)))
    return [differs('case.kind', kind, title)];
  const named = byTitle.length > 0 ? byTitle : byKind;
  const about = /ablation|ablat/i.test(`${kind} ${title}`);
  if (about && named.length > 0 && byDevices.length > 0 && !named.some(way => byDevices.includes(way)))
    return [
      differs(
        byTitle.length > 0 ? 'case.procedure' : 'case.kind',
        byTitle.length > 0 ? title : kind,
        used.find(device => ways.some(way => way.test(device.kind)))?.kind ?? '',
      ),
    ];
  return missing(record, used, tally).slice(0, 1);
}

function opposite(kind: string, title: string): boolean {
  if (changing.test(kind) || changing.test(title)) return false;
  const [puts, takes] = [putting.test(kind), taking.test(kind)];
  return (
    puts !== takes &&
    ((puts && taking.test(title) && !putting.test(title)) ||
      (takes && putting.test(title) && !taking.test(title)))
  );
}

const agents =
  /\b(?:alcohol|ethanol|glue|cyanoacrylate|foam|sclerosant|polidocanol|particles?|microspheres?|beads?|gelatin\w*|thrombin|ethiodised|iodised|lipiodol\w*|copolymer|coils?|clot|yttrium|holmium)\b/i;

/** What a completed case of this name cannot do without. Records that list no devices or events say nothing here. */
function missing(record: CaseRecord, used: readonly DeviceDetails[], tally: DeviceTally): Finding[] {
  const { kind, procedure, status } = record.case;
  const events = record.events ?? [];
  if (status !== 'completed' || used.length < 2 || events.length < 4) return [];
  const named = (words: RegExp) =>
    [['case.procedure', procedure?.text ?? ''] as const, ['case.kind', kind] as const].find(
      ([, text]) =>
        words.test(text) &&
        !/\b(?:removal|retrieval|check|work-?up|mapping|follow-?up|planning|attempt\w*|failed|in-stent|reopen\w*|clear\w*|within|angioplasty|thrombo\w+|thrombectomy|recanali\w+)\b/i.test(
          text,
        ),
    );
  const entered = new Set(
    tally.entries.filter(({ state }) => !state.startsWith('discarded')).map(({ device }) => device),
  );
  const has = (test: (device: DeviceDetails) => boolean) =>
    used.some(device => entered.has(device.key) && test(device));
  const says = (words: RegExp) =>
    events.some(event =>
      words.test(`${event.agent ?? ''} ${event.result ?? ''} ${event.note ?? ''} ${event.to ?? ''}`),
    );
  const differs = (found: readonly [string, string] | undefined, there: boolean) =>
    found && !there
      ? [
          finding('clinical.kind-differs', found[0], {
            text: found[1],
            other: used.map(device => device.kind).join(', '),
          }),
        ]
      : [];
  return [
    ...differs(
      named(/\bembolisation\b|\bembolization\b|\bchemoembol\w+|\bradioembol\w+/i),
      has(({ family }) => family === 'embolic') || says(agents),
    ),
    ...differs(
      named(
        /\bstenting\b|\bstents?$|\bstents? (?:insertion|placement)\b|\b(?:insertion|placement) of (?:\w+ ){0,4}stents?\b|^(?:[\w-]+ ){0,2}stents? (?:of|in|across) /i,
      ),
      has(
        ({ family, kind: of, row }) =>
          family === 'stent' || /stent|graft|prosthes|scaffold/i.test(`${of} ${row ?? ''}`),
      ) || says(/\bstent|\bendograft|prosthes/i),
    ),
    ...differs(
      named(
        /\bfilter (?:insertion|placement)\b|\b(?:insertion|placement) of (?:a |an |the )?(?:\w+ ){0,2}filter\b/i,
      ),
      has(({ family }) => family === 'filter'),
    ),
    ...differs(
      named(/\bbiops(?:y|ies)\b/i),
      has(({ family, kind: of }) => family === 'needle' || /biopsy|forceps|brush|needle/i.test(of)) ||
        events.some(event => event.do === 'sample'),
    ),
    ...differs(
      named(/\b(?:vertebroplasty|kyphoplasty|cementoplasty)\b/i),
      has(({ kind: of, row }) => /cement|methacrylate|PMMA/i.test(`${of} ${row ?? ''}`)) || says(/cement/i),
    ),
  ];
}
