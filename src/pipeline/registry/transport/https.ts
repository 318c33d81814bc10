import type { Session } from '../../../delivery/destination/session.js';
import type { Answer } from '../../../delivery/http/exchange.js';
import type { Reply } from '../../../delivery/http/fhir-client.js';
import type { BatchRow } from '../../../registry/store/submissions.js';
import { type Authorised, faultText, putOutcome, statusText } from './say.js';
import type { AskOutcome, FoundAnswer, PutOutcome, Transport } from './transport.js';

/** A registry that takes each batch at an address of its own, and tells there what became of it. */
export class HttpsTransport implements Transport {
  readonly #session: Session;
  readonly #path: string;
  readonly #again: Authorised;

  /** @param path below the base address, with `{batch}` for the number of the batch */
  constructor(session: Session, path: string, again: Authorised) {
    this.#session = session;
    this.#path = path.replace(/^\/+/, '');
    this.#again = again;
  }

  async put(batch: BatchRow, content: string): Promise<PutOutcome> {
    const digest = { 'x-content-sha256': batch.manifest.sha256 };
    const { exchange } = await this.#again(renew =>
      this.#session.client.write('PUT', this.#address(batch), content, digest, renew),
    );
    return putOutcome(exchange, takenAt);
  }

  async ask(batch: BatchRow): Promise<AskOutcome> {
    const { exchange } = await this.#look(batch);
    if (exchange.kind === 'fault') return { kind: 'unknown', reason: faultText(exchange) };
    const { status } = exchange;
    if (status === 404) return { kind: 'not arrived' };
    if (status < 200 || status >= 300) return { kind: 'unknown', reason: statusText(status) };
    return takenAt(exchange);
  }

  async answers(waiting: readonly BatchRow[]): Promise<readonly FoundAnswer[]> {
    const found: FoundAnswer[] = [];
    for (const batch of waiting) {
      const said = await this.ask(batch);
      if (said.kind === 'answered')
        found.push({ from: this.#address(batch), batch: batch.id, text: said.text });
    }
    return found;
  }

  #look(batch: BatchRow): Promise<Reply> {
    const { baseUrl } = this.#session.destination;
    return this.#again(async () => {
      const reply = await this.#session.client.follow(`${baseUrl}/${this.#address(batch)}`);
      // It is below the base address, so that it is never refused.
      if (!reply) throw new Error('an address of the registry that is none');
      return reply;
    });
  }

  #address({ id }: BatchRow): string {
    return this.#path.replaceAll('{batch}', encodeURIComponent(id));
  }
}

/** What a 2xx means: the registry has the batch, and its answer where it gives one. */
const takenAt = ({ body, bodyCut }: Answer): { kind: 'sent' } | { kind: 'answered'; text: string } =>
  bodyCut || body.trim() === '' ? { kind: 'sent' } : { kind: 'answered', text: body };
