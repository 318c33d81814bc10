import { finding, stops } from '../../findings/finding.js';
import { message, quoted } from '../../findings/message.js';
import { lastDay } from './dates.js';
import { elementNamed } from './element.js';
import { fillFromGs1 } from './gs1.js';
import { splitBracketed, splitRaw } from './gs1-split.js';
import { checkDigit } from './gs1-value.js';
import { fillFromHibc } from './hibc.js';
import { fillFromIccbba } from './iccbba.js';
import { definitionIssuerUris } from './issuers.js';
import { damages } from './keyboard.js';
import { type PrefixKind, prefixKind } from './prefix.js';
import type { Source } from './source.js';
import { GS, plainSource, replaceAliases, separatorAliases, shown, sliceSource } from './source.js';
import type { DecodedLabel, LabelDraft, LabelOptions } from './types.js';

/** Longer than any label of the three agencies, even with every optional field; longer text is refused unread. */
const longest = 300;

/**
 * Reads the label of a device as scanned or typed: GS1 (bracketed or element strings), HIBC, ISBT 128.
 * Never throws and never repairs: what is wrong is a finding that names the character, counted from 1.
 *
 * @param text what the scanner sent or a person typed
 * @param options at least the day of reading, for two-digit years
 */
export function decodeLabel(text: string, options: LabelOptions): DecodedLabel {
  const decoded = read(text, options);
  const damaged = decoded.findings.some(f => keyboardSymptoms.has(f.code));
  if (!damaged) return decoded;
  const proposal = keyboardProposal(text, options);
  return proposal === undefined ? decoded : { ...decoded, findings: [...decoded.findings, proposal] };
}

const keyboardSymptoms: ReadonlySet<string> = new Set([
  'label.not-a-label',
  'label.character',
  'label.symbology-unknown',
  'label.structure',
]);

/** The text without one kind of keyboard damage, when it then is a label whose check agrees. */
function keyboardProposal(text: string, options: LabelOptions) {
  for (const { cause, undo } of damages) {
    const proposal = undo(text);
    const label = read(proposal, options);
    const sure = label.check === 'right' || label.check === 'none';
    if (!sure || label.findings.some(stops)) continue;
    const check = message(label.check === 'right' ? 'scan.agrees' : 'scan.noCheck');
    return finding('label.suspect-keyboard', options.path ?? 'label', { cause, proposal, check });
  }
  return undefined;
}

function read(text: string, options: LabelOptions): DecodedLabel {
  const path = options.path ?? 'label';
  const draft: LabelDraft = { text, elements: [], findings: [] };
  if (text.length > longest) {
    draft.findings.push(finding('label.too-long', path, { found: `${text.length}`, limit: `${longest}` }));
    return draft;
  }
  // A scanner in keyboard mode ends with Enter or Tab; a space at the end may be a check character.
  const lead = /^[\s\ufeff]*/.exec(text.replaceAll(GS, '.'))?.[0].length ?? 0;
  const whole = text.slice(lead).replace(/[\r\n\t\0]+$/, '');
  const prefix = /^\][A-Za-z][0-9A-Za-z]/.exec(whole)?.[0] ?? '';
  const kind = prefixKind(prefix);
  const body = plainSource(whole.slice(prefix.length), lead + prefix.length);
  if (kind === 'unknown') {
    draft.findings.push(finding('label.symbology-unknown', path, { found: quoted(prefix) }));
  }
  const machine = fill(draft, body, kind, options, path);
  if (draft.issuer === undefined) return draft;
  if (draft.issuer === 'gs1' && kind === 'other') {
    draft.findings.push(finding('label.symbology', path, { found: prefix }));
  }
  finish(draft, options, path);
  const known = machine === 'yes' || (machine === 'same' && (kind !== 'none' || options.entry === 'scan'));
  if (known && options.entry !== 'typed') draft.carrierAIDC = base64(whole);
  return draft;
}

/**
 * Chooses the agency by the first character. The answer says whether the text is what the scanner sent:
 * `yes`, `same` (print and data look alike, so it depends on how the text came in), or `no`.
 */
function fill(
  draft: LabelDraft,
  body: Source,
  prefix: PrefixKind,
  options: LabelOptions,
  path: string,
): 'yes' | 'same' | 'no' {
  if (/^\*?\+/.test(body.text)) {
    fillFromHibc(draft, body, options);
    draft.issuerUri = uris(options).hibcc;
    return /^\*/.test(body.text) ? 'no' : 'same';
  }
  if (/^[=&]/.test(body.text)) {
    const { blood } = fillFromIccbba(draft, body, options);
    draft.issuerUri = blood ? uris(options).iccbbaBlood : uris(options).iccbbaOther;
    // = and a capital letter may start anything; a donation number that is none proves nothing.
    const only = draft.elements.every(e => e.id === '=') && draft.distinct === undefined;
    if (only) notALabel(draft, body, path);
    return draft.elements.some(element => element.id === '=+') ? 'yes' : 'same';
  }
  const aliases = options.separatorAliases ?? separatorAliases;
  const { source, replaced } = replaceAliases(body, aliases);
  const content = withoutLeadingSeparators(source);
  if (/^[({]/.test(content.text)) {
    fillFromGs1(draft, splitBracketed(content, path), options);
    draft.issuerUri = uris(options).gs1;
    if (draft.elements.length === 0) notALabel(draft, body, path);
    if (prefix === 'none') return 'no';
    draft.findings.push(finding('label.brackets-in-scan', path, {}));
    return 'same';
  }
  const bare = content.text.replaceAll(' ', '');
  if (prefix !== 'gs1' && /^\d{12,14}$/.test(bare)) {
    bareNumber(draft, content, bare, options, path);
    return 'same';
  }
  if (!/^\d/.test(content.text)) {
    notALabel(draft, body, path);
    return 'no';
  }
  fillFromGs1(draft, splitRaw(content, options.today, options.separatorsReliable ?? false, path), options);
  draft.issuerUri = uris(options).gs1;
  const marked = prefix === 'gs1' || source.text.includes(GS);
  if (!marked && draft.di === undefined && draft.lot === undefined && draft.serial === undefined)
    notALabel(draft, body, path);
  const guessed = draft.findings.some(f => f.code === 'label.separator-lost' || f.code === 'label.ambiguous');
  return replaced > 0 || guessed ? 'no' : 'yes';
}

/** A symbol that starts with FNC1 may come with a separator in front. */
function withoutLeadingSeparators(source: Source): Source {
  let i = 0;
  while (source.text[i] === GS || source.text[i] === ' ') i += 1;
  return sliceSource(source, i);
}

function uris(options: LabelOptions) {
  return { ...definitionIssuerUris, ...options.issuerUris };
}

/** Takes back everything: the text only looked like a label at its start. */
function notALabel(draft: LabelDraft, body: Source, path: string): void {
  for (const key of Object.keys(draft)) {
    if (key !== 'text') Reflect.deleteProperty(draft, key);
  }
  draft.elements = [];
  draft.findings = [
    finding('label.not-a-label', path, {
      found: body.text === '' ? message('found.nothingAtAll') : shown(body.text[0]),
    }),
  ];
}

/** Digits alone: a trade item number as it is printed under a retail symbol. */
function bareNumber(
  draft: LabelDraft,
  source: Source,
  bare: string,
  options: LabelOptions,
  path: string,
): void {
  draft.issuer = 'gs1';
  draft.issuerUri = uris(options).gs1;
  draft.di = bare.padStart(14, '0');
  draft.elements.push({ id: '01', name: 'device identifier (GTIN)', raw: bare, at: source.at(0) });
  draft.carrierHRF = `(01)${draft.di}`;
  draft.findings.push(finding('label.bare-number', path, { found: `${bare.length}` }));
  const expected = checkDigit(bare.slice(0, -1));
  draft.check = expected === bare.at(-1) ? 'right' : 'wrong';
  if (draft.check === 'right') return;
  const at = `${source.at(source.text.trimEnd().length - 1)}`;
  const params = { what: elementNamed('device identifier (GTIN)'), at, found: bare.slice(-1), expected };
  draft.findings.push(
    finding('label.check-digit', path, params, { severity: options.wrongCheck ?? 'error' }),
  );
}

/** What holds for labels of every agency. */
function finish(draft: LabelDraft, options: LabelOptions, path: string): void {
  if (options.jurisdiction !== undefined) draft.jurisdiction = options.jurisdiction;
  if (draft.di === undefined) draft.findings.push(finding('label.no-device-identifier', path, {}));
  // As text, a month without its day comes before all of its days, and nothing before everything.
  const { manufactured: made = '', expires } = draft;
  if (expires !== undefined && lastDay(expires) < made) {
    const at = (name: string) => `${draft.elements.find(e => e.name.startsWith(name))?.at ?? 1}`;
    const params = { made, madeAt: at('production date'), expires, expiresAt: at('expiry date') };
    draft.findings.push(finding('label.dates-order', path, params));
  }
}

function base64(text: string): string {
  return btoa(String.fromCharCode(...new TextEncoder().encode(text)));
}
