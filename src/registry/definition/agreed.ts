import { type Finding, finding } from '../../findings/finding.js';
import type { DeviceAction } from '../entry/action.js';
import { codingOf } from '../entry/codes.js';
import {
  type AskedElement,
  askedElements,
  type ElementName,
  type EntryElements,
  elementNames,
} from '../entry/elements.js';
import type { ElementRule, RegistryDefinition } from './schema.js';

/** What a definition asks for beyond the narrowest entry. */
export function askedBy({ elements, format }: RegistryDefinition): ReadonlySet<AskedElement> {
  const columns: readonly ElementName[] = format.kind === 'csv' ? format.columns : [];
  return new Set(
    askedElements.filter(
      name => columns.includes(name) || (elements[name] !== undefined && elements[name].need !== 'never'),
    ),
  );
}

/** Whether a registry takes entries of this kind at all. */
export function isTaken({ takes }: RegistryDefinition, entry: EntryElements): boolean {
  const { families, caseKinds, actions } = takes;
  return (
    (families === undefined || families.some(family => family === entry.family)) &&
    (actions === undefined || actions.includes(entry.action)) &&
    (caseKinds === undefined || entry.caseKind.some(kind => caseKinds.includes(kind)))
  );
}

/** An entry as a registry is to have it, and what it lacks. */
export interface AgreedEntry {
  readonly elements: EntryElements;
  readonly findings: readonly Finding[];
}

/**
 * Holds an entry against what the registry asks for. What it does not take is left out; what it cannot do without, or
 * takes in other words only, is an error, which holds the entry back.
 */
export function agreed(
  entry: EntryElements,
  definition: RegistryDefinition,
  about: { readonly case: string; readonly device: string },
): AgreedEntry {
  const kept: Partial<Record<ElementName, EntryElements[ElementName]>> = { ...entry };
  const findings: Finding[] = [];
  for (const name of elementNames) {
    const rule = definition.elements[name];
    if (!rule) continue;
    const path = pathOf(name, about.device);
    const params = { ...about, element: name };
    if (rule.need === 'never') {
      delete kept[name];
      continue;
    }
    const value = ofSystem(entry[name], rule);
    if (value === undefined) delete kept[name];
    else kept[name] = value as EntryElements[ElementName];
    if (isEmpty(value)) {
      if (rule.need === 'mandatory' && holds(rule, entry.action))
        findings.push(finding('registry.element-missing', path, params));
      else if (rule.need === 'recommended' && holds(rule, entry.action))
        findings.push(finding('registry.element-wanted', path, params));
      continue;
    }
    const texts = textsOf(value);
    const other = texts.find(text => rule.values !== undefined && !rule.values.includes(text));
    if (other !== undefined)
      findings.push(finding('registry.value-not-taken', path, { ...params, value: shown(other, name) }));
    const long = texts.find(text => rule.longest !== undefined && text.length > rule.longest);
    if (long !== undefined)
      findings.push(finding('registry.value-too-long', path, { ...params, count: `${rule.longest}` }));
  }
  return { elements: kept as EntryElements, findings };
}

const holds = ({ when }: ElementRule, action: DeviceAction): boolean =>
  when === undefined || when.includes(action);

const isEmpty = (value: unknown): boolean =>
  value === undefined || (Array.isArray(value) && value.length === 0);

/** Each value as it is compared and printed. */
export const textsOf = (value: unknown): string[] =>
  value === undefined ? [] : Array.isArray(value) ? value.map(String) : [String(value)];

/** Codes of the system that the registry takes; anything else as it is. */
function ofSystem(value: EntryElements[ElementName], { system }: ElementRule): unknown {
  if (system === undefined || value === undefined) return value;
  const fits = (one: unknown) => codingOf(String(one)).system === system;
  if (Array.isArray(value)) {
    const some = value.filter(fits);
    return some.length === 0 ? undefined : some;
  }
  return fits(value) ? value : undefined;
}

/** What a value may be shown as: pseudonyms and device numbers are never printed beside a case. */
const shown = (value: string, name: ElementName): string =>
  name === 'serial' || name === 'patient' || name === 'case' || name === 'entry' ? '…' : value;

/** Where in the record an element comes from. */
export function pathOf(element: ElementName | undefined, device: string): string {
  if (element === undefined) return `devices.${device}`;
  const inRecord = CASE_PATHS[element];
  if (inRecord !== undefined) return inRecord;
  const field = DEVICE_FIELDS[element];
  return field === undefined ? `devices.${device}` : `devices.${device}.${field}`;
}

const CASE_PATHS: Partial<Record<ElementName, string>> = {
  sex: 'patient.sex',
  ageGroup: 'patient.birthDate',
  patient: 'patient.identifiers',
  caseKind: 'case.kind',
  caseStatus: 'case.status',
  date: 'case.date',
  outcome: 'outcome.overall',
  complications: 'complications',
  grades: 'complications',
  indication: 'indication.conditions',
  operator: 'team',
};

const DEVICE_FIELDS: Partial<Record<ElementName, string>> = {
  identifier: 'udi',
  issuer: 'label',
  lot: 'lot',
  serial: 'serial',
  expires: 'expires',
  made: 'label',
  maker: 'maker',
  model: 'model',
  reference: 'reference',
  family: 'kind',
  kind: 'kind',
  diameter: 'diameter',
  length: 'length',
  count: 'count',
  placed: 'carried.date',
  site: 'carried.site',
  side: 'carried.side',
};
