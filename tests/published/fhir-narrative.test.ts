import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { divOf } from '../../src/fhir/xhtml.js';
import { exampleNames, exampleText, mapped } from '../fhir/cases.js';

/*
 * Narrative rules txt-1 and txt-2 of https://hl7.org/fhir/R4/narrative.html. The elements that are allowed are taken
 * from the rule's own XPath in StructureDefinition-Narrative.json of the package hl7.fhir.r4.examples 4.0.1.
 */
const definition = readFileSync(
  new URL('../../node_modules/hl7.fhir.r4.examples/StructureDefinition-Narrative.json', import.meta.url),
  'utf8',
);
const allowed = new Set(
  [...(/local-name\(\.\)=\(([^)]*)\)/.exec(definition)?.[1]?.matchAll(/'(\w+)'/g) ?? [])].map(
    found => found[1],
  ),
);

interface Seen {
  readonly elements: Set<string>;
  readonly root: { name: string; namespace: string } | undefined;
  readonly text: string;
}

/** Parses a narrative as XML. @throws when it is not well-formed */
function parsed(div: string): Seen {
  const elements = new Set<string>();
  let root: Seen['root'];
  let text = '';
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', tag => {
    elements.add(tag.local);
    root ??= { name: tag.local, namespace: tag.uri };
  });
  parser.on('text', piece => {
    text += piece;
  });
  parser.write(div).close();
  return { elements, root, text };
}

describe('narrative', () => {
  it('rule txt-1 lists elements', () => {
    expect(allowed.size).toBeGreaterThan(40);
    expect(allowed.has('p')).toBe(true);
    expect(allowed.has('script')).toBe(false);
  });

  it.each(exampleNames)('of every resource of %s is well-formed and within the rules', name => {
    for (const { role, resource } of mapped(exampleText(name)).set.entries) {
      const div = resource.text?.div;
      expect(div, role).toBeDefined();
      const { elements, root, text } = parsed(div ?? '');
      expect(root, role).toEqual({ name: 'div', namespace: 'http://www.w3.org/1999/xhtml' });
      expect(
        [...elements].filter(element => !allowed.has(element)),
        role,
      ).toEqual([]);
      expect(text.trim(), role).not.toBe('');
    }
  });

  it('is well-formed XML for any text at all, lone surrogates and control characters included', () => {
    const anything = fc.string({
      unit: fc.integer({ min: 0, max: 0xffff }).map(code => String.fromCharCode(code)),
    });
    fc.assert(
      fc.property(fc.array(anything), lines => {
        expect(parsed(divOf(lines)).root?.name).toBe('div');
      }),
    );
  });

  it('never lets data become markup', () => {
    const { elements, text } = parsed(divOf(['<script>alert("1")</script> & <b>']));
    expect([...elements]).toEqual(['div', 'p']);
    expect(text).toBe('<script>alert("1")</script> & <b>');
  });
});
