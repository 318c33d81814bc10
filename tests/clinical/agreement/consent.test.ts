import { describe, expect, it } from 'vitest';
import { found, recordOf } from './support.js';

const refused = (places: Readonly<Record<string, string>>, kind = 'knee artery embolisation') => {
  const { indication = 'Pain', note, observations, conclusion } = places;
  const lines = [
    `indication: { text: "${indication}" }`,
    `before: { ${observations === undefined ? '' : `observations: "${observations}", `}consent: { status: given${note === undefined ? '' : `, note: "${note}"`} } }`,
    ...(conclusion === undefined ? [] : [`conclusion: "${conclusion}"`]),
  ];
  return found('clinical.consent', recordOf(lines.join('\n'), `kind: ${kind}`));
};

describe('consent told in words', () => {
  it.each([
    { indication: 'Pain in a woman with osteoarthritis who does not want a knee replacement yet' },
    { indication: 'Does not want surgery' },
    { indication: 'Claudication in a man who does not want a bypass' },
    { indication: 'A woman who does not wish to have a stoma' },
    { indication: 'Declined an operation in spite of two bleeds' },
    { indication: 'Anaemia, refused transfusion' },
    { indication: 'Declined surgical treatment' },
    { indication: 'Refused treatment with anticoagulants' },
    { indication: 'Fibroids in a woman who no longer wants children' },
    { indication: 'Refused biopsy of the kidney' },
    { indication: 'Had declined all treatment until this month' },
    { indication: 'Does not want to go on dialysis' },
    { indication: 'He changed his mind about dialysis' },
    { observations: 'Says no pain today' },
    { observations: 'Did not want breakfast; no consent issues' },
    { observations: 'Asked us to stop aspirin a week before' },
    { indication: 'Tumour in a man who declined treatment; bleeding since Monday' },
    { observations: 'Declined an embolisation of the other knee' },
    { note: 'Declined an interpreter' },
    { note: 'Interpreter declined' },
    { note: 'Refused the leaflet' },
    { conclusion: 'Closed; she does not want a second stent' },
  ])('another treatment: %o', places => {
    expect(refused(places)).toEqual([]);
  });

  it.each([
    [{ indication: 'The patient refuses the procedure' }, 'indication.text'],
    [{ observations: 'Declined any treatment this morning' }, 'before.observations'],
    [{ observations: 'Did not want the embolisation' }, 'before.observations'],
    [{ observations: 'She does not want to go on' }, 'before.observations'],
    [{ observations: 'He no longer agrees' }, 'before.observations'],
    [{ observations: 'Did not consent to the procedure' }, 'before.observations'],
    [{ observations: 'Refused to undergo this intervention' }, 'before.observations'],
    [{ note: 'Refused' }, 'before.consent.note'],
    [{ note: 'Patient declined this morning' }, 'before.consent.note'],
    [{ note: 'Form not signed' }, 'before.consent.note'],
    [{ note: 'Changed her mind in the room' }, 'before.consent.note'],
    [{ conclusion: 'She withdrew her consent after the first vial' }, 'conclusion'],
  ])('this case: %o', (places, path) => {
    expect(refused(places)).toEqual([`clinical.consent-refused ${path}`]);
  });
});
