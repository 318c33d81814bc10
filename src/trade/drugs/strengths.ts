/**
 * The strongest solution that is given, in mg/mL, by the name of the drug's row: beyond it the point has moved. From
 * memory: product information; confirm against local policy.
 */
const strongest: Readonly<Record<string, string>> = {
  lidocaine: '50',
  bupivacaine: '7.5',
  levobupivacaine: '7.5',
  ropivacaine: '10',
  mepivacaine: '40',
  prilocaine: '40',
  articaine: '40',
  procaine: '100',
  chloroprocaine: '30',
  midazolam: '5',
  fentanyl: '0.05',
  propofol: '20',
  ketamine: '100',
  morphine: '30',
  adrenaline: '1',
  atropine: '1',
  polidocanol: '30',
  'sodium tetradecyl sulphate': '30',
};

/** The strongest solution of a drug in mg/mL, where the table has it. */
export const strongestOf = (drug: string): string | undefined =>
  Object.hasOwn(strongest, drug) ? strongest[drug] : undefined;
