import { z } from 'zod';
import { deviceFamilies } from '../../record/schema/devices.js';
import { deviceActions } from '../entry/action.js';
import { type ElementName, elementMeanings, elementNames } from '../entry/elements.js';

const text = z.string().trim().min(1);
const element = z.enum(elementNames as [ElementName, ...ElementName[]]);

/** What a registry wants of one element. */
const ruleSchema = z.strictObject({
  need: z
    .enum(['mandatory', 'recommended', 'optional', 'never'])
    .default('optional')
    .describe('mandatory: an entry without it is held back; never: it is left out whatever else is agreed'),
  when: z
    .array(z.enum(deviceActions))
    .min(1)
    .optional()
    .describe('What must have happened to the device for the need to hold; anything when absent'),
  values: z.array(text).min(1).optional().describe('Values that are taken; any when absent'),
  as: z.record(text, z.string()).optional().describe('How values are spelt in a CSV file'),
  system: text.optional().describe('Address of the code system of its codes; others are left out'),
  column: text.optional().describe('Name of its column in a CSV file; that of the element when absent'),
  longest: z.number().int().min(1).optional().describe('Most characters that it may have'),
});

const csvFormat = z.strictObject({
  kind: z.literal('csv'),
  delimiter: z.enum([',', ';', '\t', '|']).default(','),
  quote: z.enum(['where needed', 'always']).default('where needed'),
  header: z.boolean().default(true),
  newline: z.enum(['LF', 'CRLF']).default('CRLF'),
  byteOrderMark: z.boolean().default(false),
  listSeparator: z.string().min(1).max(3).default('/').describe('Between the values of a list'),
  columns: z.array(element).min(1).describe('Elements in the order of the columns'),
});

const formatSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('fhir ndjson') }),
  z.strictObject({ kind: z.literal('fhir bundle') }),
  csvFormat,
]);

const transportSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('fhir server') }),
  z.strictObject({
    kind: z.literal('https'),
    path: text
      .regex(/\{batch\}/, 'has no {batch}: a batch that is sent twice must have one address')
      .describe('Below the base address, with {batch} for the number of the batch: put there, and asked for'),
    mediaType: text.default('application/octet-stream'),
  }),
  z.strictObject({
    kind: z.literal('folder'),
    file: text
      .regex(/\{batch\}/, 'has no {batch}')
      .default('{batch}.txt')
      .describe('Name of the file of a batch'),
  }),
]);

/** In which column, or field, a line of an answer says what. */
const answerFields = z.strictObject({
  entry: text.describe('Pseudonym of the entry'),
  version: text.optional(),
  result: text,
  code: text.optional(),
  text: text.optional(),
  digest: text.optional().describe('SHA-256 of the batch that is answered'),
});

const resultsSchema = z.strictObject({
  accepted: z.array(text).min(1),
  duplicate: z.array(text).prefault([]),
  refused: z.array(text).min(1),
});

const codeSchema = z.strictObject({
  says: text,
  element: element.optional().describe('Element that it is about'),
  remedy: text.optional(),
});

const answersSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('fhir bundle') }),
  z.strictObject({
    kind: z.literal('csv'),
    delimiter: z.enum([',', ';', '\t', '|']).default(','),
    fields: answerFields,
    results: resultsSchema,
    end: text.optional().describe('What the last line begins with; an answer without it is incomplete'),
  }),
  z.strictObject({
    kind: z.literal('ndjson'),
    fields: answerFields,
    results: resultsSchema,
    end: text.optional().describe('Field that only the last line has; an answer without it is incomplete'),
  }),
]);

/** What a registry takes, in which form, over which way, and how it answers: data, so that a registry needs no code. */
export const definitionSchema = z
  .strictObject({
    registryDefinition: z.literal(1).describe('Version of the format of definitions'),
    name: text,
    version: text.describe('Version of what the registry asks for'),
    takes: z
      .strictObject({
        families: z.array(z.enum(deviceFamilies)).min(1).optional(),
        caseKinds: z.array(text).min(1).optional(),
        actions: z.array(z.enum(deviceActions)).min(1).optional(),
      })
      .prefault({})
      .describe('Which entries it takes; all when nothing is named'),
    elements: z.partialRecord(element, ruleSchema).prefault({}),
    format: formatSchema,
    transport: transportSchema,
    answers: answersSchema,
    codes: z.record(text, codeSchema).prefault({}).describe('What its codes of refusal mean'),
    maxEntries: z.number().int().min(1).max(10_000).default(500).describe('Most entries of a batch'),
    alike: z
      .strictObject({
        elements: z.array(element).min(1).describe('What together might point at a person'),
        least: z.number().int().min(2).max(1000).default(5).describe('How many people must be alike in it'),
        otherwise: z
          .enum(['send coarse', 'withhold'])
          .default('send coarse')
          .describe('What is done where there are fewer however coarse date and age are made'),
      })
      .optional()
      .describe('How many people must be alike before an entry is sent as it is'),
  })
  .superRefine((definition, context) => {
    const { format, transport, answers } = definition;
    const wrong = (path: string[], message: string) => context.addIssue({ code: 'custom', path, message });
    if (transport.kind === 'fhir server' && format.kind !== 'fhir bundle')
      wrong(['format', 'kind'], 'a FHIR server takes a fhir bundle');
    if (answers.kind === 'fhir bundle' && format.kind !== 'fhir bundle')
      wrong(['answers', 'kind'], 'a fhir bundle answers a fhir bundle alone');
    if (format.kind === 'csv' && !format.columns.includes('entry'))
      wrong(['format', 'columns'], 'has no entry: answers could not be matched');
    for (const name of definition.alike?.elements ?? [])
      if (DEVICE_NUMBERS.has(name))
        wrong(['alike', 'elements'], `${elementMeanings[name]} names a device and no person`);
    for (const [name, rule] of Object.entries(definition.elements))
      if (ALWAYS.has(name as ElementName) && rule.need === 'never')
        wrong(['elements', name], 'cannot be left out: an entry is told apart by it');
  });

export type RegistryDefinition = z.output<typeof definitionSchema>;
export type ElementRule = z.output<typeof ruleSchema>;
export type AnswersDefinition = RegistryDefinition['answers'];

/** Numbers of devices are no quasi-identifiers: each stands alone, and is what recalls go by. */
const DEVICE_NUMBERS: ReadonlySet<ElementName> = new Set([
  ...(['identifier', 'lot', 'serial', 'maker', 'model', 'reference', 'expires', 'made'] as const),
  ...(['entry', 'case', 'patient', 'placedEntry', 'version'] as const),
]);

const ALWAYS: ReadonlySet<ElementName> = new Set([
  ...(['entry', 'version', 'status', 'action', 'patient', 'case', 'caseKind', 'caseStatus', 'date'] as const),
  ...(['complications', 'grades', 'family'] as const),
]);
