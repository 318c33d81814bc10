import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');

describe('a case from its sources', () => {
  it('is whole, and most of its lines were typed by nobody', () => {
    const said = execFileSync(
      process.execPath,
      ['--import', 'tsx', join(root, 'scripts/demo-intake.ts'), '--show'],
      { cwd: root, encoding: 'utf8' },
    );
    expect(said).toContain('case.yaml: no findings; can be sent');
    expect(Number(/nobody typed \d+: (\d+) %/.exec(said)?.[1])).toBeGreaterThanOrEqual(65);
    // Each source left its name, and none the folders of this machine.
    for (const from of ['kit', 'order', 'scan', 'line', 'dose report'])
      expect(said).toContain(`from: ${from},`);
    expect(said).not.toContain(`${root}/examples/intake/dose.dcm`);
  });
});
