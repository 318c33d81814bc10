import { listOf, type Named, NameTable } from './names.js';

/** A condition that a rule asks about. */
export interface Condition extends Named {
  readonly name: 'chronic liver disease' | 'dialysis' | 'heparin-induced thrombocytopenia';
}

const row = (name: Condition['name'], aliases: string): Condition => ({ name, aliases: listOf(aliases) });

/**
 * Whole phrases only: 'pre-dialysis', 'dialysis fistula being planned' and 'no cirrhosis' name none of these.
 * Common practice, no source.
 */
const conditions: readonly Condition[] = [
  row(
    'chronic liver disease',
    'cirrhosis|liver cirrhosis|hepatic cirrhosis|cirrhotic liver|biliary cirrhosis|cardiac cirrhosis|' +
      'chronic liver failure|end-stage liver disease|decompensated liver disease|cirrhotic liver disease',
  ),
  row(
    'dialysis',
    'haemodialysis|peritoneal dialysis|dialysis-dependent|dialysis dependence|haemodialysis-dependent|' +
      'kidney failure dialysis|kidney failure haemodialysis|kidney failure peritoneal dialysis|' +
      'kidney disease dialysis|kidney disease haemodialysis|kidney disease peritoneal dialysis|' +
      'CKD dialysis|CKD haemodialysis|CKD peritoneal dialysis|ESRD dialysis|ESRD haemodialysis|ESKD dialysis|' +
      'ESKD haemodialysis|ESRF dialysis|ESRF haemodialysis|CKD 5D|CKD G5D|haemodiafiltration|home haemodialysis|' +
      'automated peritoneal dialysis|CAPD|dialysis patient|receives dialysis|receiving dialysis|' +
      'chronic kidney disease 5D|chronic kidney disease stage 5D|kidney failure dialysis-dependent',
  ),
  row(
    'heparin-induced thrombocytopenia',
    'heparin-induced thrombocytopaenia|HIT|HITT|HIT type 2|heparin-induced thrombocytopenia type 2|' +
      'heparin-associated thrombocytopenia|heparin-induced thrombocytopenia with thrombosis',
  ),
];

const table = new NameTable(conditions, {
  qualifiers:
    'chronic known stable compensated decompensated alcoholic alcohol related viral hepatitis autoimmune cryptogenic child ' +
    'pugh b c a meld score class stage end grade advanced on intermittent regular maintenance thrice three twice two times ' +
    'weekly week per nightly daily home centre day monday tuesday wednesday thursday friday saturday sunday mon tue wed thu ' +
    'fri sat sun kidney failure disease anuric current currently long term ii type liver is established',
  cuts: 'since for secondary due from by with via through because after at and under',
});

/** A text falls into its phrases at these marks. */
const marks = /[,;:()/]/;

/** The condition that a text names, by one of its phrases. */
export function conditionsIn(text: string): readonly Condition['name'][] {
  return text.split(marks).flatMap(phrase => {
    const found = table.find(phrase)?.row.name;
    return found ? [found] : [];
  });
}
