import { backupStore, restoreStore } from '../../../delivery/outbox/copies.js';
import { rescueStore } from '../../../delivery/outbox/rescue.js';
import { digestOf } from '../../../delivery/request/submission.js';
import { type CopyFlags, copied as told } from '../../copied.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { jsonText, type Output } from '../../output.js';
import { sealingOf, storeFile } from '../../process.js';
import { filled, table } from '../../terminal/fill.js';

/** Copies the embedded store to a file while workers and service go on. */
export async function backup(flags: CopyFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  const from = storeFile(flags.data);
  const items = await backupStore(from, flags.to);
  return told(
    from,
    flags.to,
    { items },
    `${items} items as of now, checked. It holds patient data, sealed as the outbox is; keep the keys elsewhere.`,
    flags,
    output,
  );
}

/** Puts a backup into the data folder, where there must be no outbox. */
export async function restore(file: string, flags: CopyFlags, output: Output): Promise<ExitCode> {
  const to = storeFile(flags.data);
  const items = await restoreStore(file, to, Date.now());
  return told(
    file,
    to,
    { items },
    `${items} items. What was not delivered when the backup was made is asked for at its destination before it is sent; what was taken in after it is not in it.`,
    flags,
    output,
  );
}

/** Copies what can be read of a damaged store to a new folder. */
export async function rescue(flags: CopyFlags & { readonly to: string }, output: Output): Promise<ExitCode> {
  const from = storeFile(flags.data);
  const to = storeFile(flags.to);
  const { copied, hurt, lost } = await rescueStore(from, to, {
    sealing: sealingOf(),
    isWhole: ({ payload, digest }) => digestOf(payload) === digest,
    now: Date.now(),
  });
  if (flags.json) output.out(jsonText({ from, to, copied, hurt, lost }));
  else {
    output.out(filled(`${to}: ${copied} items copied. ${from} was left as it is.`, output.columns));
    if (lost)
      output.out(
        filled(
          'Some items may be lost without a trace: compare with the cases of these days, and send what is missing again from its record.',
          output.columns,
        ),
      );
    if (hurt.length > 0) {
      output.out(
        filled(
          'Not copied because a part of them is hurt; send them again from their records:',
          output.columns,
        ),
      );
      output.out(table([['item', 'destination'], ...hurt.map(h => [h.id, h.destination])], output.columns));
    }
  }
  return lost || hurt.length > 0 ? exitCodes.findings : exitCodes.ok;
}
