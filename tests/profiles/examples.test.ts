import { describe, expect, it } from 'vitest';
import { isProfile, sources, version } from '../../scripts/profiles/source.js';
import { knownBad } from './known-bad.js';
import { addressOf, allExamples, profileValidator, spoilt } from './validators.js';

const profiles = sources().filter(isProfile);

describe('examples of the profiles', () => {
  it.each(allExamples().map(example => [example.resource.id, example] as const))(
    '%s conforms',
    (_id, example) => {
      const { issues, evaluated } = profileValidator().validateText(example.text);
      expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
      expect(evaluated.profiles).toContain(`${example.profile}|${version()}`);
      // A profile that was not held would be an error above; a binding that cannot be checked would say so.
      expect(issues.filter(issue => issue.rule === 'profile-not-loaded')).toEqual([]);
    },
  );

  it('every profile is evaluated by one of them', () => {
    const seen = new Set(
      allExamples().flatMap(({ text }) => profileValidator().validateText(text).evaluated.profiles),
    );
    expect(profiles.map(({ url }) => `${url}|${version()}`).filter(url => !seen.has(url))).toEqual([]);
  });
});

describe('what a withdrawn report told', () => {
  const retired = allExamples().filter(
    ({ resource }) => resource.resourceType !== 'Bundle' && !resource.id.startsWith('registry-'),
  );
  it.each(retired.map(example => [example.resource.id, example] as const))(
    '%s conforms when it is entered in error',
    (_id, example) => {
      const resource: Record<string, unknown> = JSON.parse(example.text);
      resource['status'] = 'entered-in-error';
      if ('docStatus' in resource) resource['docStatus'] = 'entered-in-error';
      const { issues, evaluated } = profileValidator().validateText(JSON.stringify(resource));
      expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
      expect(evaluated.profiles).toContain(`${example.profile}|${version()}`);
    },
  );
});

describe('known-bad examples', () => {
  it('exist for every profile, and for every rule that a profile adds', () => {
    const covered = new Set(knownBad.map(({ profile }) => addressOf(profile)));
    expect(profiles.map(({ url }) => url).filter(url => !covered.has(url))).toEqual([]);
    const rules = profiles.flatMap(p =>
      p.differential.element.flatMap(e => (e.constraint ?? []).map(c => c.key)),
    );
    const broken = new Set(knownBad.map(({ rule }) => rule));
    expect(rules.filter(key => !broken.has(key)).sort()).toEqual([]);
  });

  it.each(knownBad.map(one => [one.profile, one.what, one] as const))('%s: %s', (_profile, _what, one) => {
    const { issues } = profileValidator().validateText(spoilt(one));
    const errors = issues.filter(({ severity }) => severity === 'error' || severity === 'fatal');
    const found = errors.filter(
      ({ key, rule, path, source }) =>
        (key ?? rule) === one.rule && [path, source?.element ?? ''].some(at => at.startsWith(one.at)),
    );
    expect(found.length, errors.map(i => `${i.key ?? i.rule} ${i.path}`).join('\n')).toBeGreaterThan(0);
    // What says so is a profile of ours, or of the patient summary that it stands on.
    expect(found.some(i => /casetally\.example|\/uv\/ips\//.test(i.source?.profile ?? ''))).toBe(true);
  });
});
