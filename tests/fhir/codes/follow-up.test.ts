import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { followUpRows } from '../../../src/fhir/codes/follow-up.js';
import { caseText, mapped, resourceOf } from '../cases.js';

const packages = new URL('../../../node_modules/hl7.fhir.r4.examples/', import.meta.url);
const read = (name: string) => JSON.parse(readFileSync(new URL(name, packages), 'utf8'));

const DEVICES = `
devices: { drain: { kind: drainage catheter, size: 8 Fr }, stitch: { kind: suture }, stent: { kind: biliary stent } }
events:
  - { at: "09:06", do: insert, device: drain }
  - { at: "09:07", do: insert, device: stitch }
  - { at: "09:08", do: insert, device: stent }
left:
  - { device: drain, until: { condition: dry } }
  - { device: stitch, until: { condition: dry } }
  - { device: stent, purpose: intended, latest: 3 months }
`;

const coded = (item: string, over: object = { snomedLicence: true }) => {
  const { set } = mapped(caseText(`${DEVICES}aftercare: [{ key: it, by: ward, ${item} }]`), over);
  const all = resourceOf(set, 'procedure', 'Procedure').followUp ?? [];
  const text = /do: ([^,]+)/.exec(item)?.[1];
  const first = all.find(one => one.text === text);
  const others = all.filter(one => one !== first);
  expect(resourceOf(set, 'aftercare/it', 'ServiceRequest').code).toEqual(first);
  // What follows from what was left says "Remove or change": it has no code.
  expect(others.map(({ coding }) => coding)).toEqual([undefined, undefined, undefined]);
  return first;
};

describe('Procedure.followUp', () => {
  // Source: StructureDefinition-Procedure and ValueSet-procedure-followup of the package hl7.fhir.r4.examples 4.0.1.
  it('has codes of the value set that it is bound to, and no others', () => {
    const element = read('StructureDefinition-Procedure.json').snapshot.element.find(
      (e: { path: string }) => e.path === 'Procedure.followUp',
    );
    const valueSet = read('ValueSet-procedure-followup.json');
    expect(element.binding.valueSet).toBe(valueSet.url);
    const [include] = valueSet.compose.include;
    const codes = include.concept.map(({ code }: { code: string }) => `${include.system} ${code}`);
    for (const { code } of followUpRows) expect(codes).toContain(`${code.system} ${code.code}`);
    expect(followUpRows.length).toBeGreaterThan(0);
  });

  it.each([
    ['do: Remove the drain, device: drain', '241031001'],
    ['do: removal of drain, device: drain', '241031001'],
    ['do: Remove the suture', '30549001'],
    ['do: Remove the suture, device: stitch', '30549001'],
    ['do: Removal of staples', '35963001'],
    ['do: Change the dressing', '18949003'],
  ])('%s: %s', (item, code) => {
    const text = /do: ([^,]+)/.exec(item)?.[1];
    expect(coded(item)).toMatchObject({ text, coding: [{ system: 'http://snomed.info/sct', code }] });
  });

  it.each([
    'do: Remove the drain',
    'do: Remove the drain, device: stent',
    'do: Do not remove the drain, device: drain',
    'do: Unlock and remove the drain, device: drain',
    'do: Exchange the drain, device: drain',
    'do: Change the dressing and check the fixation, device: drain',
    'do: Leave the suture',
  ])('%s: text alone', item => {
    expect(coded(item)).toEqual({ text: /do: ([^,]+)/.exec(item)?.[1] });
  });

  it('bears the code of the site for the words', () => {
    const code = { system: 'https://codes.example.org/aftercare', code: 'R1', display: 'Drain out' };
    expect(coded('do: Drain out', { localCodes: { 'drain out': [code] } })?.coding).toMatchObject([code]);
  });
});
