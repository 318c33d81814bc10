import { createInterface } from 'node:readline';
import type { CatalogueRow } from '../../../devices/catalogue/row.js';
import type { LabelOptions } from '../../../devices/labels/types.js';
import { scanContribution } from '../../../intake/scan/contribution.js';
import { devicesIn } from '../../../intake/scan/there.js';
import {
  emptyTray,
  type ScanOptions,
  type ScanOutcome,
  type ScanTray,
  scanned,
} from '../../../intake/scan/tray.js';
import { symbolsIn } from '../../../pipeline/intake/photo.js';
import { catalogued } from '../../../pipeline/open-case.js';
import { type ExitCode, exitCodes, worstOf } from '../../exit.js';
import { readBytes } from '../../files.js';
import type { Output } from '../../output.js';
import { filled } from '../../terminal/fill.js';
import { findingsText } from '../../terminal/findings.js';
import { openSite } from '../open-site.js';
import { intoFile } from './add.js';

interface ScanFlags {
  readonly photo?: readonly string[];
  readonly site?: string;
  readonly out?: string;
  readonly json?: boolean;
  /** Lines as they come; standard input when absent. */
  readonly lines?: AsyncIterable<string>;
}

/** More than a case ever has on the table; a scanner that is stuck sends the same without end. */
const MOST = 500;

/**
 * Takes labels from a scanner that types (or from photos) into the devices of a record, until the input ends. Exit 1 where
 * a label could not be read, or nobody said what a device is.
 */
export async function scan(file: string, flags: ScanFlags, output: Output): Promise<ExitCode> {
  const site = await openSite(flags.site, output);
  if (!site) return exitCodes.usage;
  let left: ExitCode = exitCodes.ok;
  if (output.watched && !flags.photo)
    say(
      output,
      'Scan the labels. After a label, type what the device is where it is not said; undo takes the last one back; Ctrl-D ends and writes.',
    );
  const code = await intoFile(file, flags, site, output, async (text, now) => {
    const { separators } = site.site.devices;
    const labels: LabelOptions = {
      ...{ today: now.slice(0, 10), entry: 'scan' },
      ...(separators && { separatorAliases: separators }),
    };
    const there = devicesIn(text, labels);
    const options: ScanOptions = { ...labels, known: there.serials };
    const rows = new Map<string, CatalogueRow>();
    const tray = await fill(options, flags, output, async di => {
      if (!rows.has(di)) for (const [key, row] of (await catalogued(site, [di])).rows) rows.set(key, row);
      return rows.get(di);
    });
    const { contribution, keys } = scanContribution(tray.tray, there.devices, rows, now);
    for (const [n, key] of keys.entries())
      if (key === undefined) {
        left = exitCodes.findings;
        const { di = '' } = tray.tray.devices[n]?.label ?? {};
        say(
          output,
          `${di}: left out, since nobody said what it is. Scan it again and type what it is, such as guidewire.`,
        );
      }
    if (tray.unread > 0 || tray.tray.waiting.length > 0) left = exitCodes.findings;
    for (const symbol of tray.tray.waiting)
      say(output, `${symbol}: left out, since the label with its device identifier was not scanned.`);
    return { sources: { contributions: [contribution], kits: [] } };
  });
  return worstOf([code, left]);
}

const say = (output: Output, text: string) => output.err(filled(text, output.columns, '', '  '));

async function* symbols({ photo = [], lines }: ScanFlags): AsyncGenerator<string> {
  for (const name of photo) for (const symbol of await symbolsIn(await readBytes(name), name)) yield symbol;
  if (photo.length > 0 && lines === undefined) return;
  yield* lines ?? typed();
}

/** Lines of standard input until it ends, or somebody breaks off: what was scanned so far is written then too. */
async function* typed(): AsyncGenerator<string> {
  const input = createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
  const end = () => input.close();
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.once(signal, end);
  try {
    yield* input;
  } finally {
    for (const signal of signals) process.off(signal, end);
  }
}

async function fill(
  options: ScanOptions,
  flags: ScanFlags,
  output: Output,
  lookUp: (di: string) => Promise<CatalogueRow | undefined>,
): Promise<{ readonly tray: ScanTray; readonly unread: number }> {
  let tray = emptyTray;
  let unread = 0;
  for await (const line of symbols(flags)) {
    const step = scanned(tray, line, options);
    tray = step.tray;
    if (step.outcome.kind === 'not-read') unread += 1;
    await tell(step.outcome, line, tray, output, lookUp);
    if (tray.devices.length >= MOST) {
      say(output, `${MOST} devices: no more are taken.`);
      break;
    }
  }
  return { tray, unread };
}

/** One line for each scan, so that whoever scans sees what became of it. */
async function tell(
  outcome: ScanOutcome,
  line: string,
  tray: ScanTray,
  output: Output,
  lookUp: (di: string) => Promise<CatalogueRow | undefined>,
): Promise<void> {
  const at = 'device' in outcome ? tray.devices[outcome.device] : undefined;
  const label = at?.label;
  const row = label?.di === undefined ? undefined : await lookUp(label.di);
  const name = at?.kind ?? row?.kind ?? row?.description ?? '';
  const numbers = [
    label?.lot && `lot ${label.lot}`,
    label?.serial && `serial ${label.serial}`,
    label?.expires && `expires ${label.expires}`,
  ];
  const what = [name === '' ? label?.di : name, ...numbers].filter(part => part).join(', ');
  switch (outcome.kind) {
    case 'new':
    case 'joined':
    case 'named':
      say(output, name === '' ? `${what}: type what it is` : what);
      if (label && label.findings.length > 0) output.err(findingsText('label', label.findings, output));
      return;
    case 'again':
      return say(output, `${what}: ${at?.count ?? 0} of them`);
    case 'asks':
      return say(
        output,
        outcome.serial
          ? `${what === '' ? 'This serial number' : what}: scanned before, or in the record already. One serial number is one device: it is not counted again.`
          : `${what}: scanned before. One more of the same? y or n`,
      );
    case 'waits':
      return say(output, 'Now the other label of the same device.');
    case 'not-counted':
      return say(output, 'Not counted.');
    case 'taken-back':
      return say(output, `Taken back; ${tray.devices.length} left.`);
    case 'not-read':
      if (outcome.findings.length > 0) output.err(findingsText('label', outcome.findings, output));
      else say(output, `${line.slice(0, 40)}: neither a label nor the name of a device.`);
      return;
    case 'nothing':
  }
}
