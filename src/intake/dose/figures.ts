import { type Finding, finding } from '../../findings/finding.js';
import { message } from '../../findings/message.js';
import { unitOfCode } from '../../record/units.js';
import { type ContentItem, childrenOf, type DoseCode } from './content.js';
import { type DoseFigure, plainDigits } from './numbers.js';

/** What a figure measures, as units of the record go; `other` takes any unit and is only shown. */
export type Measured = 'kermaArea' | 'kerma' | 'kermaLength' | 'duration' | 'count' | 'other';

/** Figures of a report, and what was found while they were read. */
export class Figures {
  readonly findings: Finding[] = [];

  /** The one figure under a concept; undefined where it is absent, said twice with another value, or not to be understood. */
  of(item: ContentItem, code: string, measured: Measured): DoseFigure | undefined {
    const found = childrenOf(item, code).filter(({ type }) => type === 'NUM');
    const [first] = found;
    if (!first) return undefined;
    const what = first.concept?.meaning ?? code;
    if (new Set(found.map(({ number }) => `${number?.digits} ${number?.unit}`)).size > 1) {
      this.findings.push(finding('dose-report.said-twice', '', { what }));
      return undefined;
    }
    return this.#figure(first, what, measured);
  }

  #figure({ number }: ContentItem, what: string, measured: Measured): DoseFigure | undefined {
    // An empty measured value says that it is not known: no fault of the file.
    if (!number) return undefined;
    const value = plainDigits(number.digits);
    if (value === undefined || (measured !== 'other' && value.startsWith('-'))) {
      if (measured !== 'other')
        this.findings.push(finding('dose-report.value', '', { what, found: number.digits }));
      return undefined;
    }
    if (measured === 'count') {
      if (/^\d+(\.0*)?$/.test(value)) return { value: value.replace(/\..*/, ''), unit: '1' };
      this.findings.push(finding('dose-report.value', '', { what, found: number.digits }));
      return undefined;
    }
    if (measured !== 'other' && unitOfCode(number.unit)?.dimension !== measured) {
      const unit = number.unit === '' ? message('dose.noUnit') : number.unit;
      this.findings.push(finding('dose-report.unit', '', { what, unit }));
      return undefined;
    }
    return { value, unit: number.unit };
  }

  /** Coded value under a concept. */
  coded(item: ContentItem, code: string): DoseCode | undefined {
    return childrenOf(item, code).find(({ coded }) => coded)?.coded;
  }

  /** Text under a concept: of TEXT, UIDREF, DATETIME. */
  text(item: ContentItem, code: string): string | undefined {
    return childrenOf(item, code).find(({ text }) => text !== undefined)?.text;
  }
}

/** Leaves out what is undefined. */
export function known<T extends object>(parts: { [K in keyof T]: T[K] | undefined }): T {
  return Object.fromEntries(Object.entries(parts).filter(([, value]) => value !== undefined)) as T;
}
