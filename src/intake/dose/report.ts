import type { DoseCode } from './content.js';
import type { DoseFigure } from './numbers.js';

/** X-ray plane that totals or an event belong to; `single` where the system has one. */
export type Plane = 'single' | 'A' | 'B';

/** Totals of one plane as the report states them: TID 10004 and 10007. Units are those of the file, in UCUM. */
export interface PlaneTotals {
  readonly plane: Plane;
  readonly doseAreaProduct?: DoseFigure;
  readonly fluoroDoseAreaProduct?: DoseFigure;
  readonly acquisitionDoseAreaProduct?: DoseFigure;
  readonly doseRp?: DoseFigure;
  readonly fluoroDoseRp?: DoseFigure;
  readonly acquisitionDoseRp?: DoseFigure;
  readonly fluoroTime?: DoseFigure;
  readonly acquisitionTime?: DoseFigure;
  readonly frames?: DoseFigure;
}

/** One irradiation event of projection X-ray: TID 10003. */
export interface XrayEvent {
  readonly uid?: string;
  /** As it stands: `YYYYMMDDHHMMSS` with fraction and offset where given. */
  readonly started?: string;
  readonly plane?: Plane;
  readonly type?: DoseCode;
  readonly protocol?: string;
  readonly target?: DoseCode;
  readonly doseAreaProduct?: DoseFigure;
  readonly doseRp?: DoseFigure;
  readonly kvp?: DoseFigure;
  readonly pulseRate?: DoseFigure;
  readonly pulses?: DoseFigure;
  readonly duration?: DoseFigure;
}

/** One CT acquisition: TID 10013. A localizer may have no dose. */
export interface CtEvent {
  readonly uid?: string;
  readonly type?: DoseCode;
  readonly protocol?: string;
  readonly target?: DoseCode;
  readonly phantom?: DoseCode;
  readonly kvp?: DoseFigure;
  readonly doseIndex?: DoseFigure;
  readonly doseLengthProduct?: DoseFigure;
}

/** Whom, which study and which system a report is about, as its header says. */
export interface DoseHead {
  readonly instance?: string;
  readonly study?: string;
  readonly accession?: string;
  readonly patient: {
    readonly id?: string;
    /** In the order it is said: given name, family name. */
    readonly name?: string;
    /** The same name in other writings. */
    readonly otherNames: readonly string[];
    /** `YYYY-MM-DD`. */
    readonly birthDate?: string;
    readonly sex?: 'female' | 'male' | 'other';
  };
  /** Date and time of the content, ISO 8601; with its offset where the file has one. */
  readonly at?: string;
  readonly system: {
    readonly manufacturer?: string;
    readonly model?: string;
    readonly station?: string;
    readonly serial?: string;
    readonly observer?: string;
  };
  /** Reports that this one says it takes the place of. */
  readonly predecessors: readonly string[];
}

/** One dose report, read. */
export interface DoseReport extends DoseHead {
  readonly kind: 'x-ray' | 'ct';
  /** What the totals are about: Study, Series, Performed Procedure Step … */
  readonly scope?: DoseCode;
  /** None for CT. */
  readonly planes: readonly PlaneTotals[];
  readonly xrayEvents: readonly XrayEvent[];
  /** None for projection X-ray. */
  readonly ct?: { readonly events?: DoseFigure; readonly doseLengthProduct?: DoseFigure };
  readonly ctEvents: readonly CtEvent[];
}

/** A report and the file it came from. */
export interface DoseFile {
  readonly file: string;
  readonly report: DoseReport;
}

/** `Larkfield Imaging Arc Nine, ROOM-2`. */
export function systemText({ system }: Pick<DoseReport, 'system'>): string | undefined {
  const { manufacturer, model, station, serial } = system;
  const maker = [manufacturer, model].filter(part => part !== undefined).join(' ');
  const text = [maker === '' ? serial : maker, station]
    .filter(part => part !== undefined && part !== '')
    .join(', ');
  return text === '' ? undefined : text;
}
