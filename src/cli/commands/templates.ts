import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Finding, finding, sortFindings, stops } from '../../findings/finding.js';
import { languages } from '../../findings/languages.js';
import { checkCase } from '../../pipeline/check.js';
import { reportOptions } from '../../pipeline/settings.js';
import { shippedTemplates } from '../../pipeline/tools.js';
import { checkTemplates, type TrialCase } from '../../report/check/check.js';
import { loadSources } from '../../report/render/load.js';
import { buildView } from '../../report/view/view.js';
import { unconfiguredSite } from '../../site/site.js';
import { type ExitCode, exitFor } from '../exit.js';
import { jsonText, type Output } from '../output.js';
import { findingsText } from '../terminal/findings.js';

const examples = fileURLToPath(new URL('../../../examples/', import.meta.url));

/** Tries the templates of a folder on every shipped example, in every language; 1 when one may not be used. */
export function checkTemplateFolder(
  folder: string,
  flags: { readonly json?: boolean },
  output: Output,
): ExitCode {
  const findings = sortFindings(findingsOf(folder));
  if (flags.json) output.out(jsonText({ findings }));
  else
    output.out(
      findingsText(folder, findings, output, {
        verdict: findings.some(stops) ? 'not to be used' : 'can be used',
      }),
    );
  return exitFor(findings);
}

function findingsOf(folder: string): Finding[] {
  const own = loadSources(folder);
  if (own.size === 0) return [finding('template.none', '', { folder })];
  return checkTemplates(loadSources(shippedTemplates), own, trialCases());
}

/** Every example that can be read, in every language. */
function trialCases(): TrialCase[] {
  const names = readdirSync(examples).filter(name => /\.(yaml|json)$/.test(name) && name !== 'site.yaml');
  return names.sort().flatMap(name => {
    const { record, assessment } = checkCase(readFileSync(join(examples, name)), unconfiguredSite);
    if (!record || !assessment) return [];
    return languages.map(language => ({
      name,
      view: buildView(record, assessment, { ...reportOptions(unconfiguredSite), language }),
    }));
  });
}
