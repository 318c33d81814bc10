import type { Output } from '../../output.js';
import { type Pace, paceText } from '../../terminal/pace.js';

/** Says how far it is, while it goes on. */
export interface BulkProgress {
  say(pace: Pace): void;
  close(): void;
}

/** Where nobody watches, a line now and then is enough. */
const LINE_MS = 10_000;

const silent: BulkProgress = { say: () => undefined, close: () => undefined };

/** A bar on a terminal, lines elsewhere; nothing of patients is in it, names of files neither. */
export async function bulkProgress(
  output: Output,
  { quiet, json }: { readonly quiet?: boolean; readonly json?: boolean },
  now: () => number = Date.now,
): Promise<BulkProgress> {
  if (quiet || json) return silent;
  const text = paceText(now);
  if (!output.watched) return lines(output, text, now);
  const { SingleBar, Presets } = (await import('cli-progress')).default;
  const bar = new SingleBar(
    {
      format: '[{bar}] {text}',
      barsize: Math.max(5, Math.min(30, (output.columns ?? 80) - 60)),
      stream: process.stderr,
      clearOnComplete: true,
      hideCursor: false,
      gracefulExit: false,
      // A terminal that is left without wrapping by a kill is no terminal any more.
      linewrap: true,
      fps: 4,
    },
    Presets.legacy,
  );
  let begun = false;
  return {
    say: pace => {
      const payload = { text: text(pace) };
      if (!begun) bar.start(Math.max(1, pace.total), pace.at, payload);
      else bar.update(pace.at, payload);
      begun = true;
    },
    close: () => bar.stop(),
  };
}

function lines(output: Output, text: (pace: Pace) => string, now: () => number): BulkProgress {
  let last = now();
  return {
    say: pace => {
      const said = text(pace);
      if (now() - last < LINE_MS) return;
      last = now();
      output.err(`casetally bulk: ${said}\n`);
    },
    close: () => undefined,
  };
}
