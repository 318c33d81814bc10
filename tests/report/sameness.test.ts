import { afterEach, describe, expect, it } from 'vitest';
import { finding } from '../../src/findings/finding.js';
import { audiences, formats } from '../../src/report/options.js';
import { renderNarrative } from '../../src/report/render/render.js';
import { documentOf } from '../../src/report/view/document.js';
import { buildView } from '../../src/report/view/view.js';
import { assessment, fullStates, read } from '../support/report/assess.js';
import { fullCase } from '../support/report/cases.js';
import { flat, render, templates, viewOf } from '../support/report/reports.js';

const zone = process.env['TZ'];

describe('the same case gives the same bytes', () => {
  afterEach(() => {
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
  });
  const all = () => {
    const view = viewOf(fullCase, fullStates);
    return [
      ...audiences.flatMap(audience => formats.map(format => render(view, audience, format))),
      JSON.stringify(renderNarrative(documentOf(view, { audience: 'record' }), templates)),
    ].join('\n');
  };
  const here = all();
  it.each(['UTC', 'America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Auckland'])('in %s', name => {
    process.env['TZ'] = name;
    expect(new Date(2024, 0, 1).getTimezoneOffset() === 0).toBe(name === 'UTC');
    expect(all()).toBe(here);
  });
});

describe('accepted warnings', () => {
  it('are printed with their message, reason and person', () => {
    const record = read(fullCase);
    const warning = {
      ...finding('report.hidden-character', 'devices.balloon.note', { characters: 'U+200B' }),
      acknowledged: { reason: 'tested on the bench before use', by: 'op' },
    };
    const other = finding('report.hidden-character', 'patient.name', { characters: 'U+FEFF' });
    const acknowledged = [
      {
        finding: 'report.hidden-character',
        about: 'balloon',
        reason: 'tested on the bench before use',
        by: 'op',
      },
    ];
    const given = { ...record, acknowledged };
    const text = flat(
      render(buildView(given, assessment(given, fullStates, [warning, other])), 'record', 'text'),
    );
    expect(text).toContain(
      'The text holds U+200B, which nobody can see; the report leaves it out. (report.hidden-character, balloon)',
    );
    expect(text).toContain('Accepted because tested on the bench before use Accepted by Dr Ilse Branquinho');
    expect(text).not.toContain('U+FEFF');
  });
});
