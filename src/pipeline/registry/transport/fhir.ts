import type { DeviceUseStatement } from 'fhir/r4.js';
import { exactText, isExactObject, listAt, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import type { Session } from '../../../delivery/destination/session.js';
import { succeeded } from '../../../delivery/http/fhir-client.js';
import { ownProfile } from '../../../fhir/profiles.js';
import type { RegistryOptions } from '../../../registry/options.js';
import type { BatchRow, Line } from '../../../registry/store/submissions.js';
import { type Authorised, faultText, putOutcome, statusText } from './say.js';
import type { AskOutcome, PutOutcome, Transport } from './transport.js';

/** Entries that one search asks for. */
const AT_ONCE = 20;

/** A registry that is a FHIR server: batches of updates, each found by the number of its entry. */
export class FhirTransport implements Transport {
  readonly #session: Session;
  readonly #options: Pick<RegistryOptions, 'pseudonymSystem' | 'canonical'>;
  readonly #again: Authorised;

  constructor(
    session: Session,
    options: Pick<RegistryOptions, 'pseudonymSystem' | 'canonical'>,
    again: Authorised,
  ) {
    this.#session = session;
    this.#options = options;
    this.#again = again;
  }

  async put(_batch: BatchRow, content: string): Promise<PutOutcome> {
    const { exchange } = await this.#again(renew => this.#session.client.postBundle(content, renew));
    return putOutcome(exchange, ({ body, bodyCut }) =>
      bodyCut ? { kind: 'unknown', reason: 'its answer broke off.' } : { kind: 'answered', text: body },
    );
  }

  /** Looks for each entry, in the version that was sent. A search that may lag is not believed when it finds nothing. */
  async ask({ triedAt = 0 }: BatchRow, lines: readonly Line[]): Promise<AskOutcome> {
    const { destination, clock } = this.#session;
    for (let at = 0; at < lines.length; at += AT_ONCE) {
      const some = lines.slice(at, at + AT_ONCE);
      const held = await this.#heldOf(some);
      if (typeof held === 'string') return { kind: 'unknown', reason: held };
      if (some.every(({ elements, version }) => (held.get(elements.entry) ?? 0) >= version)) continue;
      const waits = triedAt + destination.searchLagMs - clock();
      // Sending again is safe once the server finds what it has: each update goes to the entry of its number.
      return waits > 0
        ? { kind: 'unknown', reason: 'its search may not show yet what was sent.' }
        : { kind: 'not arrived' };
    }
    return { kind: 'held' };
  }

  /** A FHIR server answers at once, or not at all. */
  async answers(): Promise<readonly []> {
    return [];
  }

  /** Version of each entry that the server holds, or in words why it cannot be told. */
  async #heldOf(lines: readonly Line[]): Promise<ReadonlyMap<string, number> | string> {
    const { pseudonymSystem: system, canonical } = this.#options;
    const identifier = lines.map(({ elements }) => `${system}|${elements.entry}`).join(',');
    const reply = await this.#again(() =>
      this.#session.client.search('DeviceUseStatement', { identifier, _count: `${lines.length * 2}` }),
    );
    if (!succeeded(reply))
      return reply.exchange.kind === 'fault' ? faultText(reply.exchange) : statusText(reply.exchange.status);
    const held = new Map<string, number>();
    for (const entry of listAt(reply.body, 'entry')) {
      const resource = isExactObject(entry) ? objectAt(entry, 'resource') : undefined;
      if (!resource || textAt(resource, 'resourceType') !== 'DeviceUseStatement') continue;
      const { identifier: numbers = [], extension = [] } = JSON.parse(
        exactText(resource),
      ) as DeviceUseStatement;
      const number = numbers.find(one => one.system === system)?.value;
      const version = extension.find(({ url }) => url === ownProfile('entry-version', canonical));
      if (number !== undefined) held.set(number, Number(version?.valuePositiveInt ?? 0));
    }
    return held;
  }
}
