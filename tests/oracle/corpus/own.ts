import { profileExamples } from '../../../scripts/profiles/examples.js';
import { packageName, published, sources, version } from '../../../scripts/profiles/source.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleFiles, exampleName, preparedExample } from '../../support/examples.js';
import { type Example, example } from './examples.js';
import { isObject, itemsAt, textAt } from './json.js';

/** Resources of one type taken out of the submissions to be changed one by one. */
const perType = 2;

export interface OwnCorpus {
  /** What leaves the software: submissions and documents with their attachments, and the examples of our profiles. */
  readonly whole: readonly Example[];
  /** Single resources to make mutants of: a Bundle with a report inside is too large to change thousands of times. */
  readonly parts: readonly Example[];
}

/** Our own output, made from the example cases. */
export function ownCorpus(): OwnCorpus {
  const bundles = exampleFiles.flatMap(file => {
    const { submission, document } = preparedExample(file);
    const name = exampleName(file);
    return [example(`own/${name}/submission`, submission), example(`own/${name}/document`, document)];
  });
  // The same cases as a site sends them that asks for a DiagnosticReport.
  const asReports = exampleFiles.map(file =>
    example(
      `own/${exampleName(file)}/with-diagnostic-report`,
      preparedExample(file, {
        ...unconfiguredSite,
        report: { diagnosticReport: true, unreviewedLetters: false },
      }).submission,
    ),
  );
  const profiled = profileExamples().map(({ profile, text }) =>
    example(`own/profile/${profile.split('/').at(-1) ?? ''}`, text),
  );
  return { whole: [...bundles, ...asReports, ...profiled], parts: [...profiled, ...partsOf(bundles)] };
}

function partsOf(bundles: readonly Example[]): Example[] {
  const taken = new Map<string, number>();
  const parts: Example[] = [];
  for (const { id, json } of bundles) {
    for (const resource of itemsAt(json, 'entry').map(entry =>
      isObject(entry) ? entry['resource'] : undefined,
    )) {
      const type = textAt(resource, 'resourceType') ?? '';
      const count = taken.get(type) ?? 0;
      if (!isObject(resource) || count >= perType || type === 'DocumentReference') continue;
      taken.set(type, count + 1);
      parts.push(example(`${id}/${type}-${count + 1}`, JSON.stringify(resource)));
    }
  }
  return parts;
}

/** Our profiles, value sets and code systems, for our validator. */
export function ownDefinitions(): {
  source: { name: string; version: string };
  resources: readonly unknown[];
} {
  return { source: { name: packageName, version: version() }, resources: sources().map(published) };
}
