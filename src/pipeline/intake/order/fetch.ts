import { type ExactObject, listAt, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import type { Session } from '../../../delivery/destination/session.js';
import { nextPageOf } from '../../../delivery/held/lookup.js';
import { type Reply, resourceOf } from '../../../delivery/http/fhir-client.js';
import { type Finding, finding } from '../../../findings/finding.js';
import { isVoid, numbersAt, referenceTo } from './resource.js';

/** What a record system holds about an order: each list as far as it answered. */
export interface OrderHeld {
  readonly order: ExactObject;
  readonly patient: ExactObject;
  readonly encounter?: ExactObject;
  readonly requester?: ExactObject;
  readonly allergies: readonly ExactObject[];
  readonly conditions: readonly ExactObject[];
  readonly medications: readonly ExactObject[];
  readonly laboratory: readonly ExactObject[];
  readonly measurements: readonly ExactObject[];
  readonly uses: readonly ExactObject[];
  /** Devices that uses speak of, by their reference. */
  readonly devices: ReadonlyMap<string, ExactObject>;
  readonly reports: readonly ExactObject[];
}

/** What came of asking for an order. */
export interface FetchedOrder {
  readonly held?: OrderHeld;
  readonly findings: readonly Finding[];
  /** True where the destination gave no answer to the first question. */
  readonly unreached: boolean;
}

/** How many pages of one search are read, and how many devices. */
const PAGES = 10;
const DEVICES = 60;

/** Weight and height. Source: LOINC codes as `src/fhir/codes/clinical.ts` has them. */
const MEASUREMENTS = 'http://loinc.org|29463-7,http://loinc.org|8302-2';

/**
 * Asks a destination for an order and what it holds of its patient.
 * @param number of the order, its accession or its encounter; `SYSTEM|NUMBER` where the number alone is not enough
 */
export async function fetchOrder(session: Session, number: string): Promise<FetchedOrder> {
  const asked = new Asking(session);
  const { name } = session.destination;
  const found = await asked.orders(number);
  if (found === undefined) return { findings: asked.findings, unreached: true };
  const orders = found.filter(order => !isVoid(order));
  const [order, another] = orders;
  if (order === undefined || another !== undefined) {
    const params = { number, destination: name };
    const said =
      another !== undefined
        ? finding('intake.order-several', 'case.order', {
            ...params,
            orders: orders.map(ownNumbers).join('; '),
          })
        : found.length > 0
          ? finding('intake.order-void', 'case.order', params)
          : finding('intake.order-not-found', 'case.order', params);
    return { findings: [...asked.findings, said], unreached: false };
  }
  const patient = await asked.one(referenceTo(order, 'subject', 'Patient'));
  if (!patient) {
    const said = finding('intake.order-without-patient', 'patient', { number, destination: name });
    return { findings: [...asked.findings, said], unreached: false };
  }
  const id = textAt(patient, 'id') ?? '';
  const of = { patient: `Patient/${id}` };
  const ofPatient = async (type: string, more: Readonly<Record<string, string>> = {}) =>
    asked.ownOf(await asked.all(type, { ...of, ...more }), id);
  const encounter = await asked.one(referenceTo(order, 'encounter', 'Encounter'));
  const requester = await asked.one(referenceTo(order, 'requester', 'Practitioner'));
  const lists = {
    allergies: await ofPatient('AllergyIntolerance'),
    conditions: await ofPatient('Condition'),
    medications: [
      ...(await ofPatient('MedicationRequest', { status: 'active' })),
      ...(await ofPatient('MedicationStatement')),
    ],
    laboratory: await ofPatient('Observation', { category: 'laboratory', _sort: '-date' }),
    measurements: await ofPatient('Observation', { code: MEASUREMENTS, _sort: '-date' }),
    uses: await ofPatient('DeviceUseStatement'),
    reports: await ofPatient('DiagnosticReport', { _sort: '-date' }),
  };
  const devices = new Map<string, ExactObject>();
  const wanted = new Set(lists.uses.flatMap(use => referenceTo(use, 'device', 'Device') ?? []));
  for (const reference of [...wanted].slice(0, DEVICES)) {
    const device = await asked.one(reference);
    if (device) devices.set(reference, device);
  }
  const [ownEncounter] = encounter ? asked.ownOf([encounter], id) : [];
  return {
    held: {
      ...{ order, patient, ...lists, devices },
      ...(ownEncounter && { encounter: ownEncounter }),
      ...(requester && { requester }),
    },
    findings: asked.findings,
    unreached: false,
  };
}

const ownNumbers = (order: ExactObject): string =>
  numbersAt(order)
    .map(({ system, value }) => (system === undefined ? value : `${system}|${value}`))
    .join(', ');

/** Questions to one destination, and what went wrong with them. A question that is not answered leaves nothing said. */
class Asking {
  readonly findings: Finding[] = [];
  readonly #session: Session;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Orders with a number: their own or their accession, else those of the encounter that has it. Undefined: no answer. */
  async orders(number: string): Promise<readonly ExactObject[] | undefined> {
    const own = await this.#search('ServiceRequest', { identifier: number });
    if (!own) return undefined;
    if (own.length > 0) return own;
    const requisition = (await this.#search('ServiceRequest', { requisition: number }, true)) ?? [];
    if (requisition.length > 0) return requisition;
    const encounters = (await this.#search('Encounter', { identifier: number }, true)) ?? [];
    const orders: ExactObject[] = [];
    for (const encounter of encounters.filter(one => !isVoid(one))) {
      const id = textAt(encounter, 'id');
      if (id !== undefined)
        orders.push(...((await this.#search('ServiceRequest', { encounter: `Encounter/${id}` })) ?? []));
    }
    return orders;
  }

  /** Everything that a search finds; nothing where it is not answered, which is said. */
  async all(type: string, params: Readonly<Record<string, string>>): Promise<readonly ExactObject[]> {
    return (await this.#search(type, params)) ?? [];
  }

  /** A resource by its reference. */
  async one(reference: string | undefined): Promise<ExactObject | undefined> {
    const [type, id] = reference?.split('/') ?? [];
    if (type === undefined || id === undefined) return undefined;
    const reply = await this.#session.client.read(type, id);
    const read = resourceOf(reply);
    if (read && textAt(read, 'resourceType') === type && textAt(read, 'id') === id) return read;
    this.#unanswered(type, reply);
    return undefined;
  }

  /** Those of a patient. A server that passes over what it was asked for gives those of others as well. */
  ownOf(all: readonly ExactObject[], patient: string): readonly ExactObject[] {
    const own = all.filter(one =>
      [referenceTo(one, 'patient', 'Patient'), referenceTo(one, 'subject', 'Patient')].includes(
        `Patient/${patient}`,
      ),
    );
    if (own.length < all.length)
      this.findings.push(
        finding('intake.of-other-patient', 'patient', {
          destination: this.#session.destination.name,
          what: textAt(all[0], 'resourceType') ?? 'resource',
          count: `${all.length - own.length}`,
        }),
      );
    return own;
  }

  async #search(
    type: string,
    params: Readonly<Record<string, string>>,
    mayFail = false,
  ): Promise<readonly ExactObject[] | undefined> {
    const found = new Map<string, ExactObject>();
    // Read over the client that keeps digits: a laboratory value is taken as it was printed.
    let reply: Reply | undefined = await this.#session.client.search(type, params);
    for (let page = 0; reply; page += 1) {
      const bundle = resourceOf(reply);
      if (!bundle || textAt(bundle, 'resourceType') !== 'Bundle') {
        if (!mayFail) this.#unanswered(type, reply);
        return page === 0 ? undefined : [...found.values()];
      }
      for (const entry of listAt(bundle, 'entry')) {
        const resource = objectAt(entry, 'resource');
        const isMatch = (textAt(objectAt(entry, 'search'), 'mode') ?? 'match') === 'match';
        if (isMatch && resource && textAt(resource, 'resourceType') === type)
          found.set(textAt(resource, 'id') ?? `${found.size}`, resource);
      }
      const address = nextPageOf(bundle);
      if (address === undefined) break;
      // Nothing is asked of another server, even where this one leads there.
      reply = page + 1 < PAGES ? await this.#session.client.follow(address) : undefined;
      if (!reply)
        this.findings.push(
          finding('intake.more-there', type, { destination: this.#session.destination.name, what: type }),
        );
    }
    return [...found.values()];
  }

  #unanswered(type: string, { exchange }: Reply): void {
    const why = exchange.kind === 'answer' ? `HTTP ${exchange.status}` : exchange.kind;
    const { name } = this.#session.destination;
    this.findings.push(finding('intake.not-answered', type, { destination: name, what: type, why }));
  }
}
