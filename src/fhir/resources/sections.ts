import type { CodeableConcept, CompositionSection, Reference } from 'fhir/r4.js';
import { emptyReasons } from '../codes/document.js';
import { type SectionKey, type SectionRow, sectionOrder, sectionRow } from '../codes/sections.js';
import { codingOf } from '../codes/types.js';
import { knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import type { NarrativeSection } from '../narrative.js';
import { some } from '../tidy.js';
import { divOf } from '../xhtml.js';
import { imagingStudies } from './document-reference.js';

/**
 * Sections in the order of the report; after them, in the order of the table, those that have resources and no words
 * of their own. Parts that the report prints under one heading are sections inside it.
 */
export function sectionsOf(context: MappingContext): CompositionSection[] {
  const written = new Map(context.narrative.sections.map(section => [section.key, section]));
  const silent = sectionOrder.filter(key => !written.has(key) && !isPart(key));
  return [
    ...context.narrative.sections
      .filter(({ key }) => !isPart(key))
      .map(one => sectionOf(context, one.key, one)),
    ...silent.flatMap(key => {
      const made = sectionOf(context, key, undefined);
      return made.entry || made.section ? [made] : [];
    }),
  ];

  function isPart(key: string): boolean {
    return sectionRow(key)?.within !== undefined;
  }
}

function sectionOf(
  context: MappingContext,
  key: string,
  written: NarrativeSection | undefined,
): CompositionSection {
  const row = sectionRow(key);
  const title = written?.title ?? row?.title ?? key;
  const entry = entriesOf(context, key);
  const parts = sectionOrder.filter(part => sectionRow(part)?.within === key);
  const inside = parts.flatMap(part => partOf(context, part));
  const summary = entry.map(({ display }) => display ?? '');
  return {
    title,
    code: codeOf(row, title),
    text: written
      ? { status: 'additional', div: written.div }
      : entry.length > 0
        ? { status: 'generated', div: divOf([title, ...summary]) }
        : undefined,
    entry: some(entry),
    emptyReason: entry.length > 0 || inside.length > 0 ? undefined : emptyReason(context, key),
    section: some(inside),
  };
}

/** A section inside another: its words are those of the outer one, or the reason why it is empty. */
function partOf(context: MappingContext, key: SectionKey): CompositionSection[] {
  const written = context.narrative.sections.find(section => section.key === key);
  const row = sectionRow(key);
  const title = written?.title ?? row?.title ?? key;
  const entry = entriesOf(context, key);
  const reason = entry.length > 0 ? undefined : emptyReason(context, key);
  if (entry.length === 0 && !reason && !written) return [];
  const lines = reason ? [reason.text ?? title] : entry.map(({ display }) => display ?? title);
  return [
    {
      title,
      code: codeOf(row, title),
      text: written ? { status: 'additional', div: written.div } : { status: 'generated', div: divOf(lines) },
      entry: some(entry),
      emptyReason: reason,
    },
  ];
}

function codeOf(row: SectionRow | undefined, title: string): CodeableConcept {
  return row?.code ? { coding: [codingOf(row.code)], text: title } : { text: title };
}

/** The resources that belong to a section, named by the first line of their own narrative. */
function entriesOf(context: MappingContext, key: string): Reference[] {
  const own = context.entries
    .filter(entry => entry.section === key)
    .map(entry => context.ref(entry.role, firstLine(entry.resource.text?.div)));
  return key === 'images' ? [...own, ...imagingStudies(context)] : own;
}

function firstLine(div: string | undefined): string | undefined {
  const text = div && /<p>(.*?)<\/p>/s.exec(div)?.[1];
  return text
    ?.replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&');
}

/** Why a list is empty: none was said, or nobody recorded it. Sections that are no lists have no reason. */
function emptyReason(context: MappingContext, key: string): CodeableConcept | undefined {
  const { record } = context;
  const said: Partial<Record<string, unknown>> = {
    allergies: record.before?.allergies,
    anticoagulants: record.before?.anticoagulants,
    drugs: both(record.drugs, record.contrast),
    sedation: record.sedation,
    complications: record.complications,
    specimens: record.specimens,
    inside: record.left,
    dose: record.radiation,
  };
  if (!(key in said)) return undefined;
  return said[key] === undefined
    ? knownConcept(emptyReasons.notasked, 'Not recorded')
    : knownConcept(emptyReasons.nilknown, 'None');
}

const both = (one: unknown, two: unknown) => (one === 'none' && two === 'none' ? 'none' : undefined);
