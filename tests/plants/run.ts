import { readBank } from './bank.js';
import { rates, type Trial, tried } from './rates.js';

/** Prints what part of the planted mistakes is caught and what part of the harmless variants gives an alarm. */
const list = process.argv.includes('--list');
const listApart = process.argv.includes('--kept-apart');

const trials = readBank().flatMap(tried);
section(
  'Open to those who write rules',
  trials.filter(trial => !trial.apart),
  list,
);
section(
  'Kept apart',
  trials.filter(trial => trial.apart),
  list && listApart,
);

function section(title: string, of: readonly Trial[], withList: boolean): void {
  console.log(`\n${title}`);
  table(
    'Mistakes caught',
    of.filter(trial => trial.kind === 'mistake'),
  );
  table(
    'Harmless variants that stay silent',
    of.filter(trial => trial.kind === 'harmless'),
  );
  const { caught, falseAlarm } = rates(of);
  console.log(`  Caught ${percent(caught)}; false alarms ${percent(falseAlarm)}`);
  if (!withList) return;
  for (const trial of of.filter(one => !one.right))
    console.log(
      `  ${trial.kind === 'mistake' ? 'missed' : 'false alarm'} ${trial.base} [${trial.class}] ${trial.say} -> ${trial.detail}`,
    );
}

function table(title: string, of: readonly Trial[]): void {
  console.log(`  ${title}: ${of.filter(trial => trial.right).length} of ${of.length}`);
  for (const name of [...new Set(of.map(trial => trial.class))].sort()) {
    const all = of.filter(trial => trial.class === name);
    console.log(`    ${name.padEnd(24)} ${all.filter(trial => trial.right).length}/${all.length}`);
  }
}

function percent(part: number): string {
  return `${(part * 100).toFixed(1)} %`;
}
