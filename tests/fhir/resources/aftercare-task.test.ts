import { readFileSync } from 'node:fs';
import type { ServiceRequest, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { documentBundle } from '../../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../../src/fhir/bundles/submission.js';
import { toR5 } from '../../../src/fhir/r5/versions.js';
import type { ResourceSet } from '../../../src/fhir/set.js';
import { exampleFiles, knownExample } from '../../support/examples.js';
import { caseText, mapped, options, resourceOf, resourcesOf } from '../cases.js';

const isTask = (resource: { resourceType: string }): resource is Task => resource.resourceType === 'Task';
const tasksOf = (set: ResourceSet) => set.entries.map(({ resource }) => resource).filter(isTask);

/** The Task of one item of aftercare, given in the words of the record. */
function taskOf(item: string, more = ''): Task | undefined {
  const { set } = mapped(
    caseText(`devices: { drain: { kind: drainage catheter, size: 8 Fr } }
events: [{ at: "09:06", do: insert, device: drain }]
left: [{ device: drain, until: { condition: dry } }]
aftercare: [${item}]
${more}`),
  );
  return tasksOf(set).find(({ code }) => code?.text === 'Look at it');
}

describe('the Task of an item of aftercare', () => {
  it.each<[string, string, object | undefined]>([
    ['due on a day', 'due: 2024-03-20', { end: '2024-03-20' }],
    ['due after a span', 'due: 1 week', { end: '2024-03-21' }],
    ['from a day on', 'earliest: 2024-03-18', { start: '2024-03-18' }],
    ['by a day', 'latest: 2024-03-28', { end: '2024-03-28' }],
    [
      'with all three: the latest day ends it, the target is in its notes',
      'earliest: 2024-03-18, due: 2024-03-20, latest: 2024-03-28',
      { start: '2024-03-18', end: '2024-03-28' },
    ],
    ['in a month that has no day', 'due: 2024-04', { end: '2024-04' }],
    ['on a condition alone', 'when: it hurts', undefined],
    ['again and again', 'every: 8 hours', undefined],
    [
      'again and again for a while',
      'due: 2024-03-20, every: 8 hours, for: 2 days',
      { start: '2024-03-20', end: '2024-03-22' },
    ],
  ])('%s', (_, dates, period) => {
    expect(taskOf(`{ do: Look at it, by: ward, ${dates} }`)?.restriction?.period).toEqual(period);
  });

  it('says what, about what, who, by when, and what to do when the day has passed', () => {
    const task = taskOf(
      '{ do: Look at it, device: drain, by: ward, urgent: true, when: it leaks, due: 2024-03-20, latest: 2024-03-28, call: the suite, ifMissed: ring the suite }',
    );
    expect(task).toMatchObject({
      status: 'requested',
      intent: 'plan',
      priority: 'urgent',
      code: { text: 'Look at it', coding: [{ code: 'fulfill' }] },
      performerType: [{ text: 'ward' }],
      input: [{ type: { text: 'Device' } }],
    });
    expect(task?.description).toMatch(/^Look at it; .*drainage catheter.*; When: it leaks$/);
    expect(task?.note?.map(({ text }) => text)).toEqual([
      'Due: 2024-03-20',
      'Latest: 2024-03-28',
      'Call: the suite',
      'If missed: ring the suite',
    ]);
  });

  it.each([
    ['patient', true],
    ['ward', false],
    ['family doctor', false],
  ])('done by the %s: has an owner: %s', (by, owned) => {
    const task = taskOf(`{ do: Look at it, by: ${by}, due: 2024-03-20 }`);
    expect(task).toBeDefined();
    expect(task?.owner).toEqual(owned ? task?.for : undefined);
  });
});

// A receiver that lists Tasks must find the request behind each one, and a reader of the document both.
describe.each(exampleFiles)('%s', file => {
  const { resources } = knownExample(file);
  const byUrl = new Map(resources.entries.map(entry => [entry.fullUrl, entry.resource]));
  const tasks = tasksOf(resources);
  const items = resources.entries.filter(({ role }) => role.startsWith('aftercare/'));
  const dated = items.filter(
    ({ resource }) =>
      resource.resourceType === 'ServiceRequest' &&
      (resource.occurrenceDateTime ??
        resource.occurrencePeriod ??
        resource.occurrenceTiming?.repeat?.boundsPeriod?.end),
  );

  it('has a Task for each item with a date and for no other, as much of a plan as the item is', () => {
    expect(tasks.length).toBe(dated.length);
    expect(tasks.map(task => task.focus?.reference)).toEqual(dated.map(({ fullUrl }) => fullUrl));
    for (const task of tasks) {
      const request = byUrl.get(task.focus?.reference ?? '') as ServiceRequest;
      expect(task.basedOn).toEqual([task.focus]);
      expect([task.intent, task.priority]).toEqual([request.intent, request.priority]);
      expect(['plan', 'proposal']).toContain(task.intent);
      const { occurrencePeriod, occurrenceDateTime, occurrenceTiming } = request;
      const ends = [occurrencePeriod?.end, occurrenceTiming?.repeat?.boundsPeriod?.end, occurrenceDateTime];
      expect(ends).toContain(task.restriction?.period?.end);
    }
  });

  it('names each Task in the plan, after its item, and in the section of the report', () => {
    const plan = resourceOf(resources, 'aftercare', 'CarePlan');
    const named = plan.activity?.map(({ reference }) => reference?.reference) ?? [];
    const tasked = resources.entries.filter(({ role }) => role.startsWith('task/'));
    expect(tasked.length).toBe(tasks.length);
    for (const { fullUrl, resource } of tasked) {
      const focus = isTask(resource) ? (resource.focus?.reference ?? '') : '';
      expect(named.indexOf(fullUrl)).toBe(named.indexOf(focus) + 1);
    }
    const section = resourceOf(resources, 'composition', 'Composition').section?.flatMap(
      ({ entry }) => entry?.map(({ reference }) => reference) ?? [],
    );
    for (const { fullUrl } of tasked) expect(section).toContain(fullUrl);
    const inDocument = resourcesOf(documentBundle(resources)).filter(isTask);
    expect(inDocument.length).toBe(tasks.length);
    expect(resourcesOf(submissionBundle(resources, options)).filter(isTask).length).toBe(tasks.length);
  });
});

/** Invariant tsk-1 of the package hl7.fhir.r5.core 5.0.0: a restriction stands beside the code for fulfilment only. */
it('is written in R5 with the code that its rule tsk-1 asks for', () => {
  const packages = new URL('../../../node_modules/', import.meta.url);
  const r5 = JSON.parse(
    readFileSync(new URL('hl7.fhir.r5.core/StructureDefinition-Task.json', packages), 'utf8'),
  );
  const rule = r5.snapshot.element[0].constraint.find((c: { key: string }) => c.key === 'tsk-1').expression;
  const task = taskOf('{ do: Look at it, by: ward, due: 2024-03-20 }') ?? { resourceType: 'Task' };
  const written = toR5(task)?.resource;
  const { coding: [coding] = [] } = (written?.['code'] ?? {}) as Task['code'] & object;
  expect(rule).toContain(`code='${coding?.code}' and system='${coding?.system}'`);
  expect(written?.['requestedPerformer']).toEqual([{ concept: { text: 'ward' } }]);
  expect(written).not.toHaveProperty('performerType');
  expect(written?.['restriction']).toEqual({ period: { end: '2024-03-20' } });
});
