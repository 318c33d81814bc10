import type { CodeableConcept, Extension, Procedure } from 'fhir/r4.js';
import { entriesOf } from '../../record/entries.js';
import {
  componentCodes,
  failedAttempt,
  placementCodes,
  removalCodes,
  stentInsertion,
} from '../codes/procedures.js';
import type { KnownCode } from '../codes/types.js';
import { type Breakdown, type Component, componentRole } from '../components.js';
import { concept, knownBy, knownConcept, outcomeConcept } from '../concept.js';
import { familyTold } from '../concepts.js';
import type { MappingContext } from '../context.js';
import { eventText, sided, targetName } from '../events.js';
import { IPS } from '../profiles.js';
import { stateOf } from '../states.js';
import { present, some } from '../tidy.js';
import { performed } from '../times.js';
import { siteConcept, siteExtensions } from './body-sites.js';
import { focalDevices, usedDevices } from './focal.js';
import { personRef } from './people.js';
import { claims } from './procedure.js';

/** One Procedure for each component, partOf the case's. */
export function addComponents(context: MappingContext, breakdown: Breakdown): void {
  for (const component of breakdown.components) addComponent(context, component);
}

/** Components whose point is a device; in the others devices are tools. */
const ON_DEVICES = new Set<Component['kind']>(['placement', 'exchange', 'removal', 'embolisation']);

function addComponent(context: MappingContext, component: Component): void {
  const { kind, about, events } = component;
  const role = componentRole(component);
  const keys = new Set(
    events.flatMap(({ event }) => [event.device, event.replaces, ...(event.with ?? [])]).filter(isText),
  );
  if (ON_DEVICES.has(kind)) keys.add(about);
  const known = new Set([...keys].filter(key => context.assessment.devices.has(key)));
  const place = placeOf(context, component);
  const first = events[0]?.event.at.iso;
  const last = events.at(-1)?.event.at.iso;
  const failed = kind === 'removal' && stateOf(context, about).inside;
  const access = context.record.access?.find(candidate => candidate.key === about);
  const resource: Procedure = {
    resourceType: 'Procedure',
    meta: claims(context, IPS.procedure),
    extension: some(place.extension),
    identifier: [context.identifier(role)],
    partOf: [context.ref('procedure')],
    status: failed ? 'stopped' : 'completed',
    statusReason: failed ? knownConcept(failedAttempt, 'Tried, and not achieved') : undefined,
    code: codeOf(context, component),
    subject: context.ref('patient'),
    encounter: context.record.case.encounter && context.ref('encounter'),
    ...(first === undefined || last === undefined
      ? performed(context.times, context.record.case.date)
      : { performedPeriod: { start: first, end: last } }),
    bodySite: place.site && [place.site],
    outcome: failed
      ? outcomeConcept(context.options, 'unsuccessful')
      : kind === 'dilatation' || kind === 'embolisation'
        ? targetOutcome(context, about)
        : undefined,
    note: some([
      ...(kind === 'access' && access ? accessNotes(access).map(text => ({ text })) : []),
      ...events.map(({ event }) => ({
        time: event.at.iso,
        authorReference: personRef(context, event.by),
        text: eventText(context, event),
      })),
    ]),
    focalDevice: some(ON_DEVICES.has(kind) ? focalDevices(context, known) : []),
    usedReference: some(usedDevices(context, known)),
  };
  context.add(role, resource, {
    from: component.path,
    sources: { bodySite: place.from, performedPeriod: events[0]?.path, note: events[0]?.path },
    summary: present(resource.code?.text, place.site?.text),
    section: 'technique',
  });
}

const isText = (value: string | undefined): value is string => value !== undefined;

function codeOf(context: MappingContext, component: Component): CodeableConcept {
  const { kind, about } = component;
  const details = context.assessment.devices.get(about);
  const name = details?.name ?? about;
  const family = details && familyTold(details);
  // Where no target is recorded it is told by the device that did it.
  const target = details ? name : targetName(context, about);
  const coded = (text: string, known?: KnownCode) => concept(context.options, text, known);
  switch (kind) {
    case 'access': {
      const access = context.record.access?.find(candidate => candidate.key === about);
      const place = access ? sided(access.site.text, access.side) : about;
      return coded(`Access: ${place}`);
    }
    case 'dilatation':
      return coded(`Dilatation: ${target}`);
    case 'embolisation':
      return coded(`Embolisation: ${target}`, componentCodes.embolisation);
    case 'sampling': {
      const specimens = entriesOf(context.record.specimens);
      const specimen = specimens.find(candidate => candidate.key === about);
      return coded(`Sampling: ${specimen?.what.text ?? targetName(context, about)}`);
    }
    case 'placement':
      return coded(
        `Placement: ${name}`,
        knownBy(placementCodes, details?.row) ?? (family === 'stent' ? stentInsertion : undefined),
      );
    case 'exchange':
      return coded(
        `Exchange: ${name}`,
        family === 'drain' || family === 'catheter' ? componentCodes.exchangeOfCatheter : undefined,
      );
    case 'removal':
      return coded(
        `Removal: ${name}`,
        knownBy(removalCodes, details?.row) ??
          (family === 'drain' || family === 'catheter' ? componentCodes.removalOfCatheter : undefined),
      );
  }
}

interface Place {
  readonly site?: CodeableConcept;
  readonly extension: readonly Extension[];
  readonly from?: string;
}

/** Where a component was done: its access, its target, or where its device lies. */
function placeOf(context: MappingContext, { about, events, kind }: Component): Place {
  const { record, assessment } = context;
  const access = kind === 'access' ? record.access?.find(candidate => candidate.key === about) : undefined;
  if (access)
    return {
      site: siteConcept(context, access.site, access.side),
      extension: siteExtensions(context, [{ role: `site/access/${access.key}`, side: access.side }]),
      from: `access[${record.access?.indexOf(access)}].site`,
    };
  const targets = events.map(({ event }) => event.target ?? event.across).filter(isText);
  const key = record.targets && Object.hasOwn(record.targets, about) ? about : targets.at(-1);
  const target = key === undefined ? undefined : record.targets?.[key];
  if (key !== undefined && target)
    return {
      site: siteConcept(context, target.what, target.side),
      extension: siteExtensions(context, [{ role: `site/target/${key}`, side: target.side }]),
      from: `targets.${key}.what`,
    };
  const into = events.find(({ event }) => event.into);
  const carried = assessment.devices.get(about)?.entry.carried?.site;
  const site = into?.event.into ?? carried;
  return site
    ? {
        site: siteConcept(context, site),
        extension: [],
        from: into?.event.into ? `${into.path}.into` : `devices.${about}.carried.site`,
      }
    : { extension: [] };
}

function targetOutcome(context: MappingContext, key: string): CodeableConcept | undefined {
  const success = context.record.targets?.[key]?.success;
  return success && outcomeConcept(context.options, success, success);
}

function accessNotes(access: NonNullable<MappingContext['record']['access']>[number]): string[] {
  return present(
    access.approach && `Approach: ${access.approach}`,
    access.guidance?.length ? `Guidance: ${access.guidance.join(', ')}` : undefined,
    access.passes === undefined ? undefined : `Passes: ${access.passes}`,
    access.closure && `Closure: ${access.closure}`,
    access.note,
  );
}
