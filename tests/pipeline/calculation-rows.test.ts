import { expect, it } from 'vitest';
import { calculationRows, checkCase } from '../../src/pipeline/check.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { exampleFiles, exampleText } from '../support/examples.js';

it.each(exampleFiles)('%s: results print calculations in English alone', file => {
  const checked = checkCase(exampleText(file), unconfiguredSite);
  const rows = calculationRows(checked);
  expect(rows.length).toBe(checked.assessment?.calculations.length);
  expect(rows.length).toBeGreaterThan(3);
  for (const row of rows) {
    expect('result' in row).toBe(!('notAssessed' in row));
    expect(Object.keys(row).slice(0, 6)).toEqual(['key', 'group', 'what', 'rule', 'basis', 'inputs']);
    expect(JSON.stringify(row)).not.toMatch(/"said"|\{\w+\}/);
  }
});
