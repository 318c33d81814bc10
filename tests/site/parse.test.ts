import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findingRows, messageOf, remedyOf } from '../../src/findings/finding.js';
import { parseSite } from '../../src/site/parse.js';
import { examplesFolder } from '../support/examples.js';

const least = `casetallySite: 1
name: Test
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Test }
`;

describe('site configuration', () => {
  it('reads the example whole', () => {
    const { site, findings } = parseSite(readFileSync(join(examplesFolder, 'site.yaml')));
    expect(findings).toEqual([]);
    expect(site?.destinations['records']?.timeout).toBe(60);
  });

  it('fills in defaults', () => {
    const { site } = parseSite(least);
    expect(site?.references).toEqual({
      patient: 'match',
      encounter: 'match',
      order: 'match',
      practitioner: 'match',
      organization: 'match',
      location: 'match',
    });
    expect(site?.devices.expiresWithinDays).toBe(30);
    expect(site?.fhir.contents).toBe('core');
  });

  it('keeps codes that are made of digits as text, and takes numbers where numbers belong', () => {
    const { site, findings } = parseSite(
      `${least}coding: { local: { nephrostomy: [{ system: "http://snomed.info/sct", code: 313270001 }] } }\ndevices: { expiresWithinDays: 60 }\n`,
    );
    expect(findings).toEqual([]);
    expect(site?.coding.local['nephrostomy']?.[0]?.code).toBe('313270001');
    expect(site?.devices.expiresWithinDays).toBe(60);
  });

  it('names every fault at once, with line and the nearest name', () => {
    const { site, findings } = parseSite(
      `${least}timeZone: Europe/Lisbn\ndevises: {}\nreferences: { patient: mach }\n`,
    );
    expect(site).toBeUndefined();
    expect(findings.map(f => [f.line, f.path])).toEqual(
      [
        [5, 'timeZone'],
        [6, 'devises'],
        [7, 'references.patient'],
      ].sort(),
    );
    expect(findings.filter(f => f.path === 'devises').map(f => remedyOf(f))[0]).toContain("'devices'");
    expect(findings.filter(f => f.path === 'references.patient').map(f => remedyOf(f))[0]).toContain(
      "'match'",
    );
  });

  it('says of a case record that it is one, and no more', () => {
    const { site, findings } = parseSite('casetally: 1\ncase: {}\npatient: {}\n');
    expect(site).toBeUndefined();
    expect(findings.map(f => [f.code, f.line, messageOf(f)])).toEqual([
      ['site.setting', 1, 'Site configuration: the file holds a case record.'],
    ]);
  });

  it('never quotes a secret that was written in place of a reference', () => {
    const { findings } = parseSite(
      `${least}destinations: { r: { url: "https://fhir.test.example/r4", auth: { kind: bearer, token: s3cr3t-t0ken } } }\n`,
    );
    expect(findings.length).toBeGreaterThan(0);
    expect(JSON.stringify(findings)).not.toContain('s3cr3t');
  });

  it('takes tokens of the service by digest, and never quotes a token written in its place', () => {
    const service = (text: string) =>
      parseSite(
        `casetallySite: 1\nname: x\nnamespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a04\norganization: { name: T }\nservice: ${text}`,
      );
    const digest = 'a'.repeat(64);
    const { site } = service(
      `{ tokens: { ward-3: { sha256: ${digest}, rights: [read] } }, work: { seconds: 5 } }`,
    );
    expect(site?.service).toEqual({
      sessions: { hours: 10, idleMinutes: 60, freshMinutes: 5 },
      proxies: [],
      tokens: { 'ward-3': { sha256: digest, rights: ['read'] } },
      work: { waiting: 100, seconds: 5, waitSeconds: 60, megabytes: 512 },
    });
    const wrong = service(
      '{ tokens: { ward: { sha256: not-a-digest-but-the-token, rights: [read] } } }',
    ).findings;
    expect(wrong.map(f => f.path)).toEqual(['service.tokens.ward.sha256']);
    expect(JSON.stringify(wrong)).not.toContain('not-a-digest');
    expect(JSON.stringify(wrong, findingRows)).toContain('casetally token new');
    const small = service('{ work: { threads: 0, megabytes: 17000 } }').findings.map(f => messageOf(f));
    expect(small).toEqual([
      'Site configuration: Expected 16384 or less, found 17000.',
      'Site configuration: Expected 1 or more, found 0.',
    ]);
  });
});
