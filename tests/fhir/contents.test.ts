import type { AdverseEvent, Bundle, Device, Procedure, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { isInside, isOpen } from '../../src/devices/types.js';
import { referencesIn } from '../../src/fhir/bundles/references.js';
import { submissionBundle } from '../../src/fhir/bundles/submission.js';
import { contentGroupNames, contentGroups, groupOf } from '../../src/fhir/contents.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { exampleFiles, fullSite, knownExample, preparedExample } from '../support/examples.js';
import { mapped } from './cases.js';
import { fullCase } from './full-case.js';

const resourcesOf = (text: string) => (JSON.parse(text) as Bundle).entry ?? [];
const ofType = <T>(text: string, type: string): T[] =>
  resourcesOf(text).flatMap(({ resource }) => (resource?.resourceType === type ? [resource as T] : []));

const cases = exampleFiles.map(file => ({
  file,
  core: knownExample(file),
  full: knownExample(file, fullSite),
}));

describe.each(cases)('$file', ({ file, core, full }) => {
  it('has a group for every resource that is not shared', () => {
    for (const entry of core.resources.entries)
      expect(groupOf(entry) !== undefined, entry.role).toBe(entry.shared === undefined);
  });

  // At most 45 for the largest case: what a receiving record is asked to take in of one case.
  it('is sent in at most 45 resources, and points at none that is not sent', () => {
    const entries = resourcesOf(core.submission);
    const sent = new Set(entries.map(({ fullUrl }) => fullUrl));
    expect(entries.length).toBeLessThanOrEqual(45);
    expect(entries.length).toBeLessThan(resourcesOf(full.submission).length);
    const contained = new Set(
      entries.flatMap(({ resource }) =>
        resource && 'contained' in resource
          ? ((resource as Procedure).contained ?? []).map(({ id }) => `#${id}`)
          : [],
      ),
    );
    expect(referencesIn(entries).filter(address => !sent.has(address) && !contained.has(address))).toEqual(
      [],
    );
  });

  it('gives aftercare as requests, as tasks beside them, or as tasks alone', () => {
    const items = new Map(core.resources.entries.map(({ fullUrl, role }) => [fullUrl, role]));
    const aftercare = (requests: boolean, tasks: boolean) => {
      const fhir = { ...unconfiguredSite.fhir, groups: { requests, tasks } };
      const { submission, findings } = preparedExample(file, { ...unconfiguredSite, fhir });
      expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
      const sent = resourcesOf(submission);
      const of = (prefix: string) =>
        sent.flatMap(({ fullUrl = '', resource }) =>
          items.get(fullUrl)?.startsWith(prefix) ? [resource as Task] : [],
        );
      return { requests: of('aftercare/'), tasks: of('task/') };
    };
    const [both, alone, neither] = [aftercare(true, true), aftercare(false, true), aftercare(false, false)];
    // Each item once: what has a day as a task that holds its request, what has none as a request.
    expect(alone.requests.length + alone.tasks.length).toBe(both.requests.length);
    expect(alone.tasks.length).toBe(both.tasks.length);
    for (const { focus, basedOn, contained } of alone.tasks) {
      expect([focus?.reference, basedOn?.[0]?.reference]).toEqual(['#request', '#request']);
      expect(contained?.[0]).toMatchObject({ resourceType: 'ServiceRequest', id: 'request' });
    }
    for (const { focus } of both.tasks) expect(focus?.reference).toMatch(/^urn:uuid:/);
    expect(neither).toEqual({ requests: [], tasks: [] });
  });

  it('creates nobody of the staff and no room', () => {
    const types = resourcesOf(core.submission).map(({ resource }) => resource?.resourceType);
    for (const type of ['Practitioner', 'PractitionerRole', 'Organization', 'Location', 'CareTeam'])
      expect(types).not.toContain(type);
    const [procedure] = ofType<Procedure>(core.submission, 'Procedure');
    expect(procedure?.performer?.[0]?.actor.display).toBeTruthy();
  });

  it('tells every device that was used, as a resource or by its kind', () => {
    const whole = ofType<Procedure>(full.submission, 'Procedure')[0];
    const part = ofType<Procedure>(core.submission, 'Procedure')[0];
    const devices = new Map(
      full.resources.entries.map(({ fullUrl, resource }) => [fullUrl, resource as Device]),
    );
    for (const { reference = '' } of whole?.usedReference ?? []) {
      const type = devices.get(reference)?.type;
      const there =
        part?.usedReference?.some(r => r.reference === reference) ||
        part?.usedCode?.some(kind => kind.text === type?.text);
      expect(there, type?.text).toBe(true);
    }
  });

  it('calls no tool a device of the patient, and leaves out no device that is', () => {
    const inside = new Set(
      core.assessment.tally.entries
        .filter(({ state, part }) => part === undefined && (isInside(state) || isOpen(state)))
        .map(({ device }) => device),
    );
    for (const { role, resource } of core.resources.entries) {
      if (resource.resourceType !== 'Device' || role === 'software') continue;
      const [, key = ''] = role.split('/');
      if (inside.has(key) && !role.includes('/', 'device/'.length))
        expect(resource.patient, role).toBeDefined();
      if (resource.patient)
        expect(ofType<Device>(core.submission, 'Device').map(d => d.identifier?.[0]?.value)).toContain(
          resource.identifier?.[0]?.value,
        );
    }
  });

  it('has the digits of the full submission in what it carries', () => {
    const values = (text: string) => new Set(text.match(/"value": -?[\d.]+/g));
    const known = values(full.submission);
    expect([...values(core.submission)].filter(value => !known.has(value))).toEqual([]);
  });

  it('sends again whatever was sent before', () => {
    const sent = new Set(resourcesOf(full.submission).map(({ fullUrl = '' }) => fullUrl));
    const { references } = fullSite;
    const again = submissionBundle(core.resources, { references, wanted: unconfiguredSite.fhir, sent });
    expect(again.entry?.map(({ fullUrl }) => fullUrl)).toEqual([...sent]);
  });
});

describe('the dose of a case', () => {
  const { set } = mapped(JSON.stringify(fullCase));
  const { references, fhir } = unconfiguredSite;
  const sent = submissionBundle(set, { references, wanted: fhir }).entry?.map(({ fullUrl }) => fullUrl) ?? [];

  it.each(['kerma-area-product', 'air-kerma', 'fluoroscopy-time', 'frames', 'peak-skin-dose'])(
    'is sent with its %s',
    figure => {
      const entry = set.entries.find(({ role }) => role === `observation/${figure}`);
      expect(sent).toContain(entry?.fullUrl ?? expect.fail(figure));
    },
  );
});

describe('groups', () => {
  const [{ core } = { core: undefined }] = cases;
  const withGroups = (groups: object) =>
    submissionBundle(core?.resources ?? expect.fail('no case'), {
      references: unconfiguredSite.references,
      wanted: { contents: 'core', groups },
    }).entry?.map(({ resource }) => resource?.resourceType) ?? [];

  it('are all met by some example, but for what none has', () => {
    const met = new Set(cases.flatMap(c => c.core.resources.entries.map(entry => groupOf(entry))));
    expect(contentGroupNames.filter(name => !met.has(name))).toEqual([
      'adverseEvents',
      'newAllergies',
      'negativeStatements',
    ]);
    for (const name of contentGroupNames) expect(contentGroups[name].why).not.toBe('');
  });

  it('are sent, or not, whatever the contents say', () => {
    expect(withGroups({})).not.toContain('Task');
    expect(withGroups({ tasks: true })).toContain('Task');
    expect(withGroups({})).toContain('ServiceRequest');
    expect(withGroups({ requests: false, plan: false })).not.toContain('CarePlan');
  });

  it('keep the suspect of an event, which would say nothing without', () => {
    const { resources } = core ?? expect.fail('no case');
    const tool = resources.entries.find(entry => groupOf(entry) === 'tools') ?? expect.fail('no tool');
    const event: AdverseEvent = {
      resourceType: 'AdverseEvent',
      actuality: 'actual',
      subject: { display: 'x' },
      suspectEntity: [{ instance: { reference: tool.fullUrl } }],
    };
    const set = {
      ...resources,
      entries: [
        ...resources.entries,
        { role: 'event/1', fullUrl: 'urn:uuid:1', resource: event, sources: {} },
      ],
    };
    const { references, fhir } = unconfiguredSite;
    const sent = submissionBundle(set, { references, wanted: fhir }).entry?.map(({ fullUrl }) => fullUrl);
    expect(sent).toContain('urn:uuid:1');
    expect(sent).toContain(tool.fullUrl);
  });
});
