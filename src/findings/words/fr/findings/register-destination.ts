import type { MessageKey } from '../../../message.js';

/** Constats sur ce que des cas ultérieurs changent chez les destinations. */
export const registerDestinationFindings = {
  'finding.register.not-ours':
    '{destination} : {address}, créé pour le cas {case}, concerne maintenant un autre patient ou un autre dispositif. Rien de ce cas n’y a été modifié.',
  'remedy.register.not-ours':
    'Cherchez auprès de {destination} qui l’a modifié. Quand tout est juste, lancez casetally register update-destinations.',
  'finding.register.several-there':
    '{destination} a plusieurs ressources sous un même identifiant du cas {case} : {addresses}. Aucune n’a été modifiée.',
  'remedy.register.several-there':
    'Faites supprimer les doublons chez {destination}, puis lancez casetally register update-destinations.',
  'finding.register.gone':
    '{destination} n’a plus {address} du cas {case}. La ressource n’a pas été créée de nouveau.',
  'remedy.register.gone':
    'Si elle a été supprimée par erreur, faites-la rétablir chez {destination}, puis lancez casetally register update-destinations --to {destination} --all.',
  'finding.register.no-versions':
    '{destination} n’indique pas la version de {address} (cas {case}) : une modification faite entre-temps par quelqu’un d’autre serait écrasée. La ressource n’a pas été mise à jour.',
  'remedy.register.no-versions':
    'Faites-la mettre à jour à la main chez {destination} ; ou acceptez ce risque : casetally register update-destinations --without-versions.',
  'finding.register.update-refused':
    '{destination} a refusé la lecture ou la mise à jour de {address} du cas {case} (HTTP {status}).',
  'remedy.register.update-refused':
    'Demandez aux administrateurs de {destination} si cet expéditeur peut chercher, lire et mettre à jour cette ressource, puis lancez casetally register update-destinations.',
  'finding.register.not-whole':
    '{destination} n’a renvoyé qu’une partie de {address} (cas {case}). La ressource n’a pas été mise à jour, car le reste serait perdu.',
  'remedy.register.not-whole':
    'Demandez aux administrateurs de {destination} de laisser cet expéditeur lire des ressources entières, puis lancez casetally register update-destinations.',
} as const satisfies Partial<Record<MessageKey, string>>;
