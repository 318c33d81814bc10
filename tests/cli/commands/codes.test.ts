import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import nock from 'nock';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkCodes } from '../../../src/cli/commands/codes.js';
import { openSite } from '../../../src/cli/commands/open-site.js';
import { run } from '../../../src/cli/program.js';
import { readCodes } from '../../../src/pipeline/codes/read-codes.js';
import { caseText } from '../../fhir/cases.js';
import { exampleText } from '../../support/examples.js';

const HOST = 'https://tx.example.org';
const SCT = 'http://snomed.info/sct';
const NAMES = 'https://codes.example.org/names';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'casetally-codes-'));
  nock.disableNetConnect();
});
afterEach(() => {
  nock.abortPendingRequests();
  nock.cleanAll();
  nock.enableNetConnect();
  rmSync(folder, { recursive: true });
});

const put = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const cases = (devices: string) => caseText(`devices: { one: { kind: ${devices} } }`);
/** A site whose list of codes is this text. */
const site = (list: string) => {
  put('codes.csv', list);
  return put('site.yaml', exampleText('site.yaml').replace(/^coding:\n/m, 'coding:\n  codes: codes.csv\n'));
};
async function check(places: string[], flags: object = {}) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await checkCodes(places, flags, {
    out: text => void out.push(text),
    err: text => void err.push(text),
    color: false,
  });
  return { code, out: out.join(''), err: err.join('') };
}
const opened = async (places: string[], flags: object = {}) =>
  JSON.parse((await check(places, { ...flags, json: true })).out);

const parameters = (...parameter: object[]) => ({ resourceType: 'Parameters', parameter });
const result = (valueBoolean: boolean) => parameters({ name: 'result', valueBoolean });

describe('codes check', () => {
  it('counts what a folder of cases names without a code, and passes over what is no case', async () => {
    put('a.yaml', cases('Hoop snare plug'));
    put('b.yaml', cases('hoop snare plug'));
    put('c.yaml', cases('double-J stent'));
    put('settings.yaml', 'casetallySite: 1\n');
    put('bundle.json', '{ "resourceType": "Bundle" }');
    const { open, cases: read, passedOver, unread } = await opened([folder]);
    expect([read, passedOver, unread]).toEqual([3, 2, []]);
    expect(open).toContainEqual({
      what: 'device',
      text: 'Hoop snare plug',
      times: 2,
      cases: 2,
      proposed: [],
    });
    expect(open.map(({ text }: { text: string }) => text)).not.toContain('double-J stent');
  });

  it('exits with 1 only where that was asked for, and with 2 where a file is no case', async () => {
    const open = put('a.yaml', cases('Hoop snare plug'));
    expect((await check([open])).code).toBe(0);
    expect((await check([open], { failIfAny: true })).code).toBe(1);
    const broken = put('b.yaml', 'casetally: 1\ncase: [\n');
    const { code, err } = await check([open, broken]);
    expect([code, err.includes(`${broken}  not counted`)]).toEqual([2, true]);
    await expect(check([join(folder, 'nowhere')])).rejects.toThrow(/nowhere cannot be read/);
    await expect(check([open], { names: NAMES })).rejects.toThrow(/add --server/);
  });

  it('prints a list to fill in, which is the list that a site then names', async () => {
    const file = put('a.yaml', cases('\'=plug, "soft"\''));
    const { out } = await check([file], { csv: true });
    const line = out.split('\n').find(row => row.includes('plug')) ?? '';
    // A spreadsheet would reckon what starts with =.
    expect(line).toBe('device,"\'=plug, ""soft""",,,,1,1,');
    expect(readCodes(new TextEncoder().encode(out)).findings).toEqual([]);
    const filled = out.replace(line, line.replace(',,,', `,${SCT},19923001,`));
    const { open } = await opened([file], { site: site(filled) });
    expect(JSON.stringify(open)).not.toContain('plug');
  });

  it("proposes what the site's own list gives another name of the same kind, and nothing else", async () => {
    const file = put('a.yaml', cases('fascia closure mesh'));
    const same = put('b.yaml', cases('introducer sheath'));
    const list = `what,text,system,code\ndevice,vascular sheath,${NAMES},SH1\ndrug,short sheath,${NAMES},D1\n`;
    const { open } = await opened([file, same], { site: site(list) });
    const of = (text: string) => open.find((name: { text: string }) => name.text === text)?.proposed;
    expect(of('introducer sheath')).toEqual([{ system: NAMES, code: 'SH1', from: 'vascular sheath' }]);
    expect(of('fascia closure mesh')).toEqual([]);
  });

  it('opens no site whose list is wrong, whatever the command', async () => {
    const path = site(`text,system,code\nplug,${SCT},1,23E+15\nplug,${SCT},257366007\n`);
    const lines: string[] = [];
    const output = { out: () => undefined, err: (text: string) => void lines.push(text), color: false };
    expect(await openSite(path, output)).toBeUndefined();
    const said = lines.join('');
    expect(said).toMatch(/codes\.csv: 2 errors[\s\S]*error 3 /);
    expect(said).toContain('codes.check-digit');
    const file = put('a.yaml', cases('stent'));
    expect(await run(['check', file, '--site', path], output)).toBe(2);
  });
});

describe('codes check with a terminology server', () => {
  const validate = (query: object, answer: object | string, type = 'application/fhir+json') =>
    nock(HOST)
      .get('/CodeSystem/$validate-code')
      .query(query as Record<string, string>)
      .reply(200, answer, { 'content-type': type });
  const impossible = (system: string) => ({ url: system, code: 'no-such-code-0' });
  const list = `text,system,code,display\nplug,${SCT},257366006,Plug of our own\n`;
  const codesOf = (findings: { code: string }[]) => findings.map(({ code }) => code);

  it("holds the site's own codes against it", async () => {
    const file = put('a.yaml', cases('plug'));
    validate(impossible(SCT), result(false));
    validate({ url: SCT, code: '257366006' }, result(true));
    validate({ url: SCT, code: '257366006', display: 'Plug of our own' }, result(false));
    nock(HOST)
      .get('/CodeSystem/$lookup')
      .query({ system: SCT, code: '257366006' })
      .reply(200, parameters({ name: 'display', valueString: 'JJ stent' }));
    // The codes of the example site itself.
    nock(HOST)
      .persist()
      .get('/CodeSystem/$validate-code')
      .query(true)
      .reply(404, { resourceType: 'OperationOutcome' });
    const { findings } = await opened([file], { site: site(list), server: HOST });
    expect(codesOf(findings)).toContain('codes.named-otherwise');
    expect(JSON.stringify(findings)).toContain('JJ stent');
    expect(JSON.stringify(findings)).toContain('status 404');
  });

  it('tells of a code that it does not know', async () => {
    const file = put('a.yaml', cases('plug'));
    nock(HOST).persist().get('/CodeSystem/$validate-code').query(true).reply(200, result(false));
    const { findings } = await opened([file], { site: site(list), server: HOST });
    expect(codesOf(findings)).toContain('codes.not-known');
  });

  it('believes no server that says yes to everything, and takes no page for an answer', async () => {
    const file = put('a.yaml', cases('plug'));
    nock(HOST).persist().get(/.*/).query(true).reply(200, result(true));
    const yes = await opened([file], { site: site(list), server: HOST, names: NAMES });
    expect(new Set(codesOf(yes.findings))).toEqual(new Set(['codes.server-believes-all']));
    nock.cleanAll();
    nock(HOST)
      .persist()
      .get(/.*/)
      .query(true)
      .reply(200, '<html>Sign in</html>', { 'content-type': 'text/html' });
    const page = await opened([file], { site: site(list), server: HOST, names: NAMES });
    expect(new Set(codesOf(page.findings))).toEqual(new Set(['codes.server']));
    expect(page.open.flatMap(({ proposed }: { proposed: unknown[] }) => proposed)).toEqual([]);
  });

  it('proposes what its maps call the same, by right check digits alone', async () => {
    const file = put('a.yaml', cases('Hoop snare plug'));
    const match = (equivalence: string, code: string) => ({
      name: 'match',
      part: [
        { name: 'equivalence', valueCode: equivalence },
        { name: 'concept', valueCoding: { system: SCT, code } },
      ],
    });
    nock(HOST).persist().get('/CodeSystem/$validate-code').query(true).reply(200, result(false));
    nock(HOST)
      .get('/ConceptMap/$translate')
      .query({ system: NAMES, code: 'Hoop snare plug' })
      .reply(
        200,
        parameters(
          { name: 'result', valueBoolean: true },
          match('equivalent', '25005004'),
          match('wider', '40388003'),
          match('equal', '25005005'),
        ),
      );
    nock(HOST).persist().get('/ConceptMap/$translate').query(true).reply(200, result(false));
    nock(HOST)
      .get('/CodeSystem/$lookup')
      .query({ system: SCT, code: '25005004' })
      .reply(200, parameters({ name: 'display', valueString: 'Snare' }));
    const { open } = await opened([file], { server: HOST, names: NAMES });
    expect(open.find(({ text }: { text: string }) => text === 'Hoop snare plug').proposed).toEqual([
      { system: SCT, code: '25005004', display: 'Snare', from: '$translate' },
    ]);
  });
});
