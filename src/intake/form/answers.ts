import type { Json, JsonObject } from '../../json/parse.js';
import type { Tree } from '../../record/read.js';
import type { QuestionNode } from './node.js';
import type { Notes, Spot } from './notes.js';
import { scannedFrom } from './pictures.js';

/** FHIR types of an answer to each kind of question. */
export function answerTypes(node: QuestionNode): readonly string[] {
  switch (node.kind) {
    case 'text':
    case 'coded':
      return ['valueString'];
    case 'choice':
      return node.open ? ['valueCoding', 'valueString'] : ['valueCoding'];
    case 'codes':
    case 'none':
      return ['valueCoding'];
    case 'date':
      return ['valueDate'];
    case 'whole':
      return ['valueInteger'];
    case 'yes-no':
      return ['valueBoolean'];
  }
}

/** What an answer says, as the record has it; undefined where it says nothing, or nothing that can be taken. */
export function saidBy(node: QuestionNode, answer: JsonObject, spot: Spot, notes: Notes): Tree | undefined {
  const expected = answerTypes(node);
  const given = Object.keys(answer).filter(name => /^value[A-Z]/.test(name));
  const [type = ''] = given;
  const value = answer[type];
  const wrong = (found: string): undefined => {
    const { linkId } = node;
    notes.say('form.wrong-type', spot, {
      ...{ linkId, expected: expected.join(', '), found },
      value: notes.leave(spot, answer),
    });
  };
  if (given.length === 0) return Object.keys(answer).length === 0 ? undefined : wrong('value[x]: 0');
  if (given.length > 1) return wrong(given.join(', '));
  if (!expected.includes(type) || value === undefined) return wrong(type);
  if (type === 'valueCoding') return codingValue(node, value, spot, notes) ?? undefined;
  if (type === 'valueBoolean') return typeof value === 'boolean' ? value : wrong(`${type}: ${typeof value}`);
  if (type === 'valueInteger')
    return typeof value === 'number' && Number.isInteger(value) && value >= 0
      ? String(value)
      : wrong(`${type}: ${JSON.stringify(value)}`);
  if (typeof value !== 'string') return wrong(`${type}: ${typeof value}`);
  // Nothing was written.
  if (value.trim() === '') return undefined;
  return node.kind === 'text' && node.scanned ? scannedFrom(value) : value;
}

function codingValue(node: QuestionNode, coding: Json, spot: Spot, notes: Notes): Tree | undefined {
  const { linkId } = node;
  const group = typeof coding === 'object' && coding !== null && !Array.isArray(coding) ? coding : {};
  const fields = Object.entries(group) as [string, Json][];
  if (node.kind === 'codes') {
    const kept = fields.filter(([name, value]) => node.fields.includes(name) && typeof value === 'string');
    const lost = fields.filter(field => !kept.includes(field)).map(([name]) => name);
    if (lost.length > 0)
      notes.say('form.part-left-out', spot, {
        ...{ linkId, parts: lost.join(', ') },
        value: notes.leave(spot, coding),
      });
    return kept.length > 0 ? (Object.fromEntries(kept) as Tree) : undefined;
  }
  const words = node.kind === 'choice' ? node.words : ['none'];
  const { code, system } = Object.fromEntries(fields);
  // The words of the record are of no code system: a code of one may mean something else.
  if (typeof code === 'string' && system === undefined && words.includes(code)) return code;
  notes.say('form.not-a-choice', spot, {
    ...{ linkId, allowed: words.join(', ') },
    value: notes.leave(spot, coding),
  });
  return undefined;
}
