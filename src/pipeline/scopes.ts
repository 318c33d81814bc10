import { NEEDS, type Needs } from '../delivery/auth/scopes.js';
import { typesWanted } from '../fhir/contents.js';
import type { Site } from '../site/site.js';
import { siteFor } from './destinations.js';

const SHARED = {
  patient: ['Patient'],
  encounter: ['Encounter'],
  order: ['ServiceRequest'],
  practitioner: ['Practitioner', 'PractitionerRole'],
  organization: ['Organization'],
  location: ['Location'],
} as const;

const sharedKinds = ['patient', 'encounter', 'order', 'practitioner', 'organization', 'location'] as const;

/** What a destination must let Casetally do for what the site sends there. */
export function needsOf(site: Site, destination: string): Needs {
  const { fhir, references, report } = siteFor(site, destination);
  const needs = new Map<string, string>([...typesWanted(fhir)].map(type => [type, NEEDS.sent]));
  if (!report.diagnosticReport) needs.delete('DiagnosticReport');
  for (const what of sharedKinds) {
    const how = references[what];
    if (how === 'identifier' || how === 'name') continue;
    for (const type of SHARED[what])
      if (needs.get(type) !== NEEDS.sent) needs.set(type, how === 'include' ? NEEDS.sent : NEEDS.lookedUp);
  }
  return new Map([...needs].sort(([a], [b]) => (a < b ? -1 : 1)));
}
