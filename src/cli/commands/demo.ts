import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AftercareItem } from '../../clinical/aftercare/aftercare.js';
import { isDelivered, sendExitCode } from '../../delivery/answer/outcome.js';
import { isInside } from '../../devices/types.js';
import { stops } from '../../findings/finding.js';
import { say } from '../../findings/say.js';
import { openDestination } from '../../pipeline/destinations.js';
import type { PreparedCase } from '../../pipeline/prepare.js';
import { readCaseBack } from '../../pipeline/read-case-back.js';
import { submitCase } from '../../pipeline/send-case.js';
import { SANDBOX_NOTICE, startSandbox } from '../../service/sandbox/server.js';
import { type ExitCode, exitCodes } from '../exit.js';
import { writeAll } from '../files.js';
import type { Output } from '../output.js';
import { processDeps, secretsFrom } from '../process.js';
import { countLine } from '../terminal/counts.js';
import { findingsText } from '../terminal/findings.js';
import { turnText } from './aftercare.js';
import { openCase } from './open-case.js';
import { openSite } from './open-site.js';
import { filesOf } from './prepare.js';
import { preparedOf } from './prepared.js';

const example = fileURLToPath(new URL('../../../examples/ureteric-stent-tumour.yaml', import.meta.url));

/** The whole way on an example: prepare, send to the embedded server, read back, and say it in plain words. */
export async function demo(flags: { readonly out: string }, output: Output): Promise<ExitCode> {
  const site = await openSite(undefined, output);
  if (!site) return exitCodes.usage;
  const opened = await openCase(example, site);
  const prepared = await preparedOf(opened, site);
  if (!prepared?.sendable) {
    output.err(findingsText(example, opened.findings.filter(stops), output));
    return exitCodes.findings;
  }
  const files = filesOf(opened, prepared);
  await writeAll(flags.out, files);

  const { case: head } = prepared.record;
  output.out(
    `The case\n  ${head.procedure?.text ?? head.kind}, ${head.date}, case ${head.id}: ${countLine(prepared.findings)}\n`,
  );
  output.out(`  ${prepared.assessment.devices.size} devices accounted for\n\n`);
  insideNow(prepared, output);
  dueWhen(prepared, output);

  const server = await startSandbox();
  try {
    const { clock, newId } = processDeps(undefined);
    const process = { clock, newId };
    const { target } = await openDestination(site.site, server.baseUrl, secretsFrom(site.folder), clock);
    if (!target) return exitCodes.usage;
    const { destination } = target;
    output.out(`The server\n  ${SANDBOX_NOTICE}\n  ${server.baseUrl}\n\n`);
    const first = await submitCase(prepared, destination, process);
    if (!isDelivered(first)) {
      output.err(findingsText(example, first.findings, output));
      return sendExitCode(first);
    }
    const counts = new Map<string, number>();
    for (const { type } of first.receipt.entries) counts.set(type, (counts.get(type) ?? 0) + 1);
    output.out(
      `What was sent\n  ${first.receipt.entries.length} resources: ${[...counts].map(([type, n]) => `${n} ${type}`).join(', ')}\n\n`,
    );
    const again = await readCaseBack(prepared, first.receipt, destination, process);
    const second = await submitCase(prepared, destination, process);
    const created = isDelivered(second) ? second.receipt.entries.filter(e => e.status === 201).length : -1;
    const equal = again.complete && again.differences.length === 0;
    output.out(
      `Read back\n  ${again.resources.length} resources read; ${equal ? 'all equal to what was sent, apart from what a server assigns' : `${again.differences.length} differences`}\n`,
    );
    output.out(`  sent a second time: ${created} created\n\n`);
    for (const d of again.differences.slice(0, 20)) output.err(`  ${d.kind} ${d.path}\n`);
    output.out(
      `The files\n${Object.keys(files)
        .map(name => `  ${join(flags.out, name)}\n`)
        .join('')}`,
    );
    return equal && created === 0 ? exitCodes.ok : exitCodes.refused;
  } finally {
    await server.close();
  }
}

function insideNow({ assessment }: PreparedCase, output: Output): void {
  const inside = assessment.tally.entries.filter(entry => isInside(entry.state));
  output.out('What stays in the patient\n');
  for (const entry of inside) {
    const set = entry.left?.entry.set;
    output.out(
      `  ${say(entry.name)}: ${entry.state}${entry.site ? `, ${entry.site.text}` : ''}${set ? `, ${set}` : ''}\n`,
    );
  }
  output.out(inside.length === 0 ? '  nothing\n\n' : '\n');
}

function dueWhen({ assessment }: PreparedCase, output: Output): void {
  const line = (item: AftercareItem) =>
    `  ${turnText(item)}  ${item.what} (${item.by})${item.condition ? `, when: ${item.condition}` : ''}\n`;
  output.out(
    `What is due when (dates are advice to be confirmed)\n${assessment.aftercare.map(line).join('')}\n`,
  );
}
