import { randomUUID } from 'node:crypto';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { openSession } from '../../../src/delivery/destination/session.js';
import { messageOf } from '../../../src/findings/finding.js';
import type { GivenValue } from '../../../src/intake/contribution.js';
import { type FetchedOrder, fetchOrder } from '../../../src/pipeline/intake/order/fetch.js';
import { orderContribution } from '../../../src/pipeline/intake/order/read.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { destination } from '../../delivery/samples.js';
import { heldResources } from './order-held.js';

const ask = (baseUrl: string, number: string): Promise<FetchedOrder> =>
  fetchOrder(
    openSession(destination(baseUrl, { name: 'records', timeoutMs: 2000 }), {
      clock: () => Date.now(),
      newId: randomUUID,
    }),
    number,
  );
const codes = ({ findings }: FetchedOrder) => findings.map(({ code }) => code);
const asked = { destination: 'records', number: 'OR-1', at: '2024-06-04T08:12:00+12:00' };

describe('an order of a record system', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox({ preload: heldResources });
  });
  afterAll(() => server.close());

  const contribution = async (number = 'OR-1') => {
    const { held, findings } = await ask(server.baseUrl, number);
    expect(findings.map(f => messageOf(f))).toEqual([]);
    return orderContribution(held ?? expect.fail('nothing held'), { ...asked, number });
  };
  const at = (values: readonly GivenValue[], path: string) =>
    values.filter(one => one.path.join('.') === path || one.path.join('.').startsWith(`${path}.`));
  const brief = (values: readonly GivenValue[], path: string) =>
    at(values, path).map(({ value, as }) => (as === 'set' || as === 'add' ? value : { [as]: value }));

  it('fills in who and what, and where it came from', async () => {
    const { values, about, from, by } = await contribution();
    expect([from, by]).toEqual(['order', 'OR-1, records']);
    expect(about).toMatchObject({
      name: 'Ines Tolmachev',
      birthDate: '1961-04-02',
      sex: 'female',
      accession: 'AC-9',
    });
    expect(brief(values, 'case')).toEqual([
      { system: 'https://ids.tawhai-inlet.example/orders', value: 'OR-1' },
      { propose: 'OR-1' },
      { system: 'https://ids.tawhai-inlet.example/encounters', value: 'V-88' },
      ...['AC-9', 'urgent'],
    ]);
    // A number that is no longer used is not taken.
    expect(brief(values, 'patient.identifiers')).toEqual([
      { system: 'https://ids.tawhai-inlet.example/patients', value: 'PT-700112' },
    ]);
    expect(brief(values, 'patient.name')).toEqual(['Ines Tolmachev']);
    expect(brief(values, 'team')).toEqual([{ key: 'referrer', role: 'referrer', name: 'Dr Lindiwe Okpara' }]);
    expect(brief(values, 'indication')).toEqual([
      'Ureteric stricture; Fever',
      { propose: ['Ureteric stricture', 'Fever'] },
      { propose: 'Is the tract still sound?' },
    ]);
  });

  it.each(['AC-9', 'V-88', 'https://ids.tawhai-inlet.example/orders|OR-1'])(
    'is found by %s too',
    async number => {
      expect(brief((await contribution(number)).values, 'case.order')).toEqual([
        { system: 'https://ids.tawhai-inlet.example/orders', value: 'OR-1' },
      ]);
    },
  );

  it('takes allergies that hold, and neither refuted ones nor errors', async () => {
    const { values } = await contribution();
    expect(brief(values, 'before.allergies')).toEqual([
      { to: 'Penicillin', reaction: 'hives, wheeze', severity: 'severe' },
    ]);
  });

  it('takes drugs against clotting that are in use, and no prescription for a last dose', async () => {
    const { values } = await contribution();
    expect(brief(values, 'before.anticoagulants')).toEqual([
      { drug: 'Apixaban 5 mg tablets', dose: '5 mg twice a day' },
    ]);
    expect(JSON.stringify(values)).not.toMatch(/lastDose|Warfarin|Paracetamol/);
  });

  it('takes the newest value of what it knows, as it was printed', async () => {
    const { values, findings } = await contribution();
    expect(brief(values, 'before.labs')).toEqual([
      { what: 'INR', value: '1.1', at: '2024-06-01T06:00:00+12:00' },
      { what: 'creatinine', value: '88 umol/L', at: '2024-06-02T06:00:00+12:00' },
      { 'propose-entry': { what: 'haemoglobin', value: '104 g/L', at: '2024-06-02T06:00:00+12:00' } },
    ]);
    expect(findings.map(f => messageOf(f))).toEqual([
      'C-reactive protein: 1 not taken over: no plain quantity.',
    ]);
    expect(at(values, 'patient.weight').concat(at(values, 'patient.height'))).toEqual([
      { path: ['patient', 'weight'], value: '71.5 kg', as: 'set', at: '2024-06-01' },
      { path: ['patient', 'height'], value: '168 cm', as: 'set', at: '2020-01-01' },
    ]);
  });

  it('takes conditions that are active', async () => {
    expect(brief((await contribution()).values, 'before.conditions')).toEqual([
      { what: 'Atrial fibrillation', status: 'active', since: '2019-03' },
    ]);
  });

  it('takes devices that are inside as carried, and none that is out', async () => {
    expect(
      at((await contribution()).values, 'devices').map(({ path, value }) => [path[1], path[2], value]),
    ).toEqual([
      ['earlier-nephrostomy-catheter', 'kind', 'Nephrostomy catheter'],
      ['earlier-nephrostomy-catheter', 'maker', 'Makebelieve Catheters'],
      ['earlier-nephrostomy-catheter', 'udi', '09506000117843'],
      ['earlier-nephrostomy-catheter', 'lot', 'L1'],
      ['earlier-nephrostomy-catheter', 'carried', { date: '2024-03-05', site: 'Left renal pelvis' }],
    ]);
  });

  it('proposes what imaging showed', async () => {
    expect(brief((await contribution()).values, 'before.imaging')).toEqual([
      { propose: 'CT of the abdomen of 2024-05-30: Dilated left renal pelvis.' },
    ]);
  });

  it.each([
    ['OR-9', 'intake.order-not-found'],
    ['OR-2', 'intake.order-void'],
    ['OR-4', 'intake.order-several'],
  ])('%s gives %s and nothing else', async (number, code) => {
    const fetched = await ask(server.baseUrl, number);
    expect([fetched.held, codes(fetched), fetched.unreached]).toEqual([undefined, [code], false]);
  });

  it('says that the patient of an order cannot be had', async () => {
    const fetched = await ask(server.baseUrl, 'OR-6');
    expect([fetched.held, codes(fetched)]).toEqual([
      undefined,
      ['intake.not-answered', 'intake.order-without-patient'],
    ]);
  });

  it('says that an order was called off', async () => {
    const { held } = await ask(server.baseUrl, 'OR-3');
    const { findings } = orderContribution(held ?? expect.fail('nothing held'), { ...asked, number: 'OR-3' });
    expect(findings.map(({ code }) => code)).toContain('intake.order-called-off');
  });
});

describe('an odd server', () => {
  let server: Server | undefined;
  afterEach(() => {
    server?.closeAllConnections();
    server?.close();
  });
  async function answering(listener: RequestListener): Promise<string> {
    server = createServer(listener);
    await new Promise<void>(resolve => server?.listen(0, '127.0.0.1', resolve));
    return `http://127.0.0.1:${(server.address() as AddressInfo).port}/fhir`;
  }
  type Held = { readonly resourceType: string; readonly id: string };
  const all = heldResources as readonly Held[];
  const bundle = (found: readonly object[], link: readonly object[] = []) =>
    JSON.stringify({
      resourceType: 'Bundle',
      type: 'searchset',
      link,
      entry: found.map(resource => ({ resource })),
    });
  /** Reads by id, and searches that give what `found` says. */
  const serving =
    (found: (type: string, url: URL) => string | number): RequestListener =>
    (request, response) => {
      const url = new URL(request.url ?? '', 'http://here');
      const [, , type = '', id] = url.pathname.split('/');
      const one = id && all.find(held => held.resourceType === type && held.id === id);
      const answer = id === undefined ? found(type, url) : one ? JSON.stringify(one) : 404;
      if (typeof answer === 'number') response.writeHead(answer).end('no');
      else response.writeHead(200, { 'content-type': 'application/fhir+json' }).end(answer);
    };
  const ofType = (type: string) => all.filter(({ resourceType }) => resourceType === type);
  const [order] = ofType('ServiceRequest');

  it('that passes over the patient in a search gives nothing of others', async () => {
    const stranger = {
      resourceType: 'AllergyIntolerance',
      id: 'z',
      patient: { reference: 'Patient/p2' },
      code: { text: 'Nuts' },
    };
    const nobody = { resourceType: 'AllergyIntolerance', id: 'y', code: { text: 'Shellfish' } };
    const url = await answering(
      serving(type =>
        bundle(
          type === 'ServiceRequest' ? [order ?? {}] : type === 'AllergyIntolerance' ? [stranger, nobody] : [],
        ),
      ),
    );
    const fetched = await ask(url, 'OR-1');
    expect([fetched.held?.allergies, codes(fetched)]).toEqual([[], ['intake.of-other-patient']]);
    const { values } = orderContribution(fetched.held ?? expect.fail('nothing held'), asked);
    // Nothing found is no statement that there is nothing.
    expect(values.filter(({ path }) => path[0] === 'before')).toEqual([]);
  });

  it('that does not know a search leaves it open, and says so', async () => {
    const url = await answering(serving(type => (type === 'ServiceRequest' ? bundle([order ?? {}]) : 403)));
    const fetched = await ask(url, 'OR-1');
    expect(fetched.held?.laboratory).toEqual([]);
    expect(new Set(codes(fetched))).toEqual(new Set(['intake.not-answered']));
    expect(fetched.findings.map(f => messageOf(f))[0]).toBe(
      'records gave no AllergyIntolerance: HTTP 403. Nothing is said of them in the record.',
    );
  });

  it('whose pages never end is left after ten of them', async () => {
    let pages = 0;
    const url = await answering(
      serving((type, { pathname }) => {
        if (type === 'ServiceRequest') return bundle([order ?? {}]);
        if (type !== 'Condition') return bundle([]);
        pages += 1;
        return bundle([], [{ relation: 'next', url: `${pathname}?page=${pages}` }]);
      }),
    );
    const fetched = await ask(url, 'OR-1');
    expect([pages, codes(fetched)]).toEqual([10, ['intake.more-there']]);
  });

  it('whose next page lies on another server is not followed there, and that is said', async () => {
    const elsewhere = 'https://records.other.example/page2';
    const url = await answering(
      serving(type => {
        if (type === 'ServiceRequest') return bundle([order ?? {}]);
        return type === 'Condition' ? bundle([], [{ relation: 'next', url: elsewhere }]) : bundle([]);
      }),
    );
    expect(codes(await ask(url, 'OR-1'))).toEqual(['intake.more-there']);
  });

  it('that sends the next page elsewhere is not followed', async () => {
    const url = await answering(
      serving(type =>
        type === 'ServiceRequest'
          ? bundle([order ?? {}])
          : bundle([], [{ relation: 'next', url: 'http://elsewhere.example/fhir/Condition?page=2' }]),
      ),
    );
    const fetched = await ask(url, 'OR-1');
    expect(fetched.held).toBeDefined();
  });

  it.each([
    [
      'hangs up',
      ((request, response) => void response.destroy(request.destroy() as never)) as RequestListener,
    ],
    ['signs in first', ((_, response) => void response.end('<html>Sign in</html>')) as RequestListener],
  ])('that %s is not reached', async (_, listener) => {
    const fetched = await ask(await answering(listener), 'OR-1');
    expect([fetched.unreached, codes(fetched)]).toEqual([true, ['intake.not-answered']]);
  });

  it('with another patient under the id asked for is not believed', async () => {
    const url = await answering((request, response) => {
      const type = (request.url ?? '').split('/')[2]?.split('?')[0];
      response.setHeader('content-type', 'application/fhir+json');
      if (type === 'ServiceRequest') response.end(bundle([order ?? {}]));
      else response.end(JSON.stringify({ resourceType: 'Patient', id: 'p2' }));
    });
    expect(codes(await ask(url, 'OR-1'))).toEqual(['intake.not-answered', 'intake.order-without-patient']);
  });
});
