import { checkDigitProblem } from '../../conformance/terminology/check-digits.js';
import { type ExactJson, isExactObject, listAt, objectAt, textAt } from '../../delivery/answer/exact-json.js';
import type { FhirReader } from '../../delivery/http/fhir-reader.js';
import type { LocalCode } from '../../fhir/options.js';
import { type Finding, finding } from '../../findings/finding.js';
import { type Message, message } from '../../findings/message.js';
import type { OpenName, ProposedCode } from './open-names.js';

/** No code system has it: whoever says so says yes to everything. */
const IMPOSSIBLE = 'no-such-code-0';
/** How a match of a ConceptMap must stand to what was asked, so that it means the same. Source: R4 concept-map-equivalence. */
const SAME = new Set(['equivalent', 'equal']);
const AT_ONCE = 4;

type Parameters = readonly ExactJson[];

/** Why there is no answer, in place of one. */
const isMessage = <T>(answer: readonly T[] | Message): answer is Message => 'key' in answer;

/** Asks one operation; the parameters of the answer, or why there are none. */
class Asker {
  private readonly reader: FhirReader;
  constructor(reader: FhirReader) {
    this.reader = reader;
  }

  async ask(
    type: string,
    operation: string,
    input: Readonly<Record<string, string>>,
  ): Promise<Parameters | Message> {
    const { exchange, body } = await this.reader.operation(type, operation, input);
    if (textAt(body, 'resourceType') === 'Parameters') return listAt(body, 'parameter');
    if (exchange.kind !== 'answer') return message('code.unreachable');
    const told = textAt(listAt(body, 'issue')[0], 'diagnostics');
    const status = `${exchange.status}`;
    return told
      ? message('code.status', { status, told: told.slice(0, 200) })
      : message('code.statusAlone', { status });
  }

  /** Whether a code, and a display of it, is of its system; a text tells why nobody knows. */
  async isValid(system: string, code: string, display?: string): Promise<boolean | Message> {
    const input = { url: system, code, ...(display !== undefined && { display }) };
    const answer = await this.ask('CodeSystem', 'validate-code', input);
    if (isMessage(answer)) return answer;
    return booleanOf(answer) ?? message('code.noResult');
  }

  /** What the system calls a code; undefined where the server does not tell. */
  async displayOf(system: string, code: string): Promise<string | undefined> {
    const answer = await this.ask('CodeSystem', 'lookup', { system, code });
    return isMessage(answer) ? undefined : textAt(named(answer, 'display'), 'valueString');
  }
}

/** The parameter of a name. */
const named = (parameters: Parameters, name: string) =>
  parameters.find(parameter => textAt(parameter, 'name') === name);

function booleanOf(parameters: Parameters): boolean | undefined {
  const result = named(parameters, 'result');
  const value = isExactObject(result) ? result['valueBoolean'] : undefined;
  return typeof value === 'boolean' ? value : undefined;
}

/** Some tasks, a few at a time. */
async function each<T>(items: readonly T[], work: (item: T) => Promise<void>): Promise<void> {
  const queue = [...items];
  const worker = async () => {
    for (let item = queue.shift(); item !== undefined; item = queue.shift()) await work(item);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
}

/**
 * Holds the site's own codes against a terminology server (`$validate-code`, `$lookup`). Only Parameters with a result
 * are an answer, and a server that says yes to a code that cannot be is believed in nothing about that system.
 */
export async function checkOwnCodes(
  own: Readonly<Record<string, readonly LocalCode[]>>,
  reader: FhirReader,
): Promise<Finding[]> {
  const asker = new Asker(reader);
  const findings: Finding[] = [];
  const rows = Object.entries(own).flatMap(([text, codes]) => codes.map(code => ({ text, ...code })));
  for (const system of new Set(rows.map(row => row.system))) {
    const codes = rows.filter(row => row.system === system);
    const probe = await asker.isValid(system, IMPOSSIBLE);
    if (probe === true) findings.push(finding('codes.server-believes-all', '', { system, code: IMPOSSIBLE }));
    else if (typeof probe === 'object')
      findings.push(
        finding('codes.server', '', { operation: '$validate-code', code: system, problem: probe }),
      );
    else await each(codes, async row => void findings.push(...(await checkOne(asker, row))));
  }
  return findings.sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
}

async function checkOne(asker: Asker, row: LocalCode & { readonly text: string }): Promise<Finding[]> {
  const { system, code, display, text } = row;
  const valid = await asker.isValid(system, code);
  if (typeof valid === 'object')
    return [finding('codes.server', '', { operation: '$validate-code', code, problem: valid })];
  if (!valid) return [finding('codes.not-known', '', { system, code, text })];
  if (display === undefined || (await asker.isValid(system, code, display)) !== false) return [];
  const called = (await asker.displayOf(system, code)) ?? message('code.otherwise');
  return [finding('codes.named-otherwise', '', { code, text, found: display, display: called })];
}

/**
 * Adds what the server's concept maps give for open names (`$translate`), asked with the name as a code of `system`, the
 * code system under which the server knows the site's own names. Only what a map calls the same is proposed.
 */
export async function proposeFromMaps(
  open: readonly OpenName[],
  system: string,
  reader: FhirReader,
): Promise<{ readonly open: readonly OpenName[]; readonly findings: readonly Finding[] }> {
  const asker = new Asker(reader);
  const findings: Finding[] = [];
  const probe = await translated(asker, system, IMPOSSIBLE);
  if (!isMessage(probe) && probe.length > 0)
    return { open, findings: [finding('codes.server-believes-all', '', { system, code: IMPOSSIBLE })] };
  const proposals = new Map<OpenName, readonly ProposedCode[]>();
  await each(open, async name => {
    const found = await translated(asker, system, name.text);
    if (isMessage(found))
      findings.push(
        finding('codes.server', '', { operation: '$translate', code: name.text, problem: found }),
      );
    else proposals.set(name, found);
  });
  return {
    open: open.map(name => ({ ...name, proposed: [...name.proposed, ...(proposals.get(name) ?? [])] })),
    // One that cannot translate at all would say so for each name.
    findings: findings.length > 3 ? findings.slice(0, 3) : findings,
  };
}

async function translated(
  asker: Asker,
  system: string,
  code: string,
): Promise<readonly ProposedCode[] | Message> {
  const answer = await asker.ask('ConceptMap', 'translate', { system, code });
  if (isMessage(answer)) return answer;
  const result = booleanOf(answer);
  if (result === undefined) return message('code.noResult');
  if (!result) return [];
  const matches = answer.filter(parameter => textAt(parameter, 'name') === 'match');
  const found: ProposedCode[] = [];
  for (const match of matches) {
    const parts = listAt(match, 'part');
    const coding = objectAt(named(parts, 'concept'), 'valueCoding');
    const [target, value] = [textAt(coding, 'system'), textAt(coding, 'code')];
    if (!SAME.has(textAt(named(parts, 'equivalence'), 'valueCode') ?? '')) continue;
    if (!target || !value || checkDigitProblem(target, value)) continue;
    const display = textAt(coding, 'display') ?? (await asker.displayOf(target, value));
    found.push({
      system: target,
      code: value,
      ...(display !== undefined && { display }),
      from: '$translate',
    });
  }
  return found;
}
