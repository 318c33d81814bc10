import type { doseWording } from '../../wording/doses.js';

/** Warnings about doses, values and drugs, in German. */
export const doseWarnings: Record<`finding.${keyof typeof doseWording}`, string> = {
  'finding.clinical.value-unlikely': '{what}',
  'finding.clinical.drug-dose-unlikely':
    '„{drug}“ {dose} ist keine übliche Dosis: üblich sind {range} auf einmal.{would}',
  'finding.clinical.drug-dose-by-weight': '„{drug}“ {dose} sind {ratio} Körpergewicht, über {limit}.{would}',
  'finding.clinical.route-unlikely': '„{drug}“ wird auf diesem Weg gewöhnlich nicht gegeben: {route}.',
  'finding.clinical.strength-missing':
    'Die Dosis von „{drug}“ ist ein Volumen, und keine Konzentration ist dokumentiert.',
  'finding.clinical.weight-missing': '{what}',
  'finding.clinical.heparin-after-hit':
    '„{what}“: Heparin nach heparininduzierter Thrombozytopenie („{known}“).',
  'finding.clinical.drug-condition':
    '„{drug}“ wurde trotz „{condition}“ ({place}) gegeben; das spricht dagegen.',
  'finding.clinical.anticoagulant-differs': '„{text}“ passt für {drug} nicht zu „{other}“ ({place}).',
  'finding.clinical.anticoagulant-unsaid':
    '„{text}“ nennt {drug}, und bei den gerinnungswirksamen Mitteln fehlt es.',
  'finding.clinical.sedation-differs': '{what}',
  'finding.clinical.drug-dose-repeated': '„{drug}“ ergibt {sum} innerhalb von {hours} h, mehr als {limit}.',
};
