import { listOf, type Match, type Named, NameTable } from './names.js';

/** A vital sign by name. */
export interface VitalSignRow extends Named {
  readonly name:
    | 'blood pressure'
    | 'mean arterial pressure'
    | 'heart rate'
    | 'oxygen saturation'
    | 'respiratory rate'
    | 'body temperature';
}

const row = (name: VitalSignRow['name'], aliases: string): VitalSignRow => ({
  name,
  aliases: listOf(aliases),
});

/** Common practice, no source. */
const table = new NameTable(
  [
    row('blood pressure', 'BP|NIBP|arterial pressure|arterial blood pressure|RR systolic diastolic'),
    row('mean arterial pressure', 'MAP|mean pressure|mean blood pressure'),
    row('heart rate', 'pulse|pulse rate|HR|heart frequency'),
    row('oxygen saturation', 'SpO2|saturation|O2 saturation|sats|pulse oximetry'),
    row('respiratory rate', 'breathing rate|respiration rate|breathing frequency'),
    row('body temperature', 'temperature|temp|core temperature'),
  ],
  { qualifiers: 'non invasive noninvasive invasive systemic peripheral left right arm first last repeat' },
);

/** The vital sign that a name means. */
export const vitalNamed = (what: string): VitalSignRow['name'] | undefined => table.find(what)?.row.name;

/** The same with how it was found. */
export const vitalMatch = (what: string): Match<VitalSignRow> | undefined => table.find(what);
