import type { MessageKey } from '../../../message.js';

/** Entrées des demandes par lesquelles un dossier commence. */
export const intakeOrderFindings = {
  'finding.intake.order-not-found':
    '{destination} n’a ni demande, ni numéro d’accès, ni venue portant le numéro {number}.',
  'remedy.intake.order-not-found':
    'Vérifiez le numéro ; si plusieurs systèmes numérotent les demandes, écrivez SYSTÈME|NUMÉRO.',
  'finding.intake.order-several':
    '{number} est le numéro de plusieurs demandes chez {destination} : {orders}. Aucune n’a été reprise.',
  'remedy.intake.order-several': 'Indiquez celle dont il s’agit, sous la forme SYSTÈME|NUMÉRO.',
  'finding.intake.order-void': '{destination} a la demande {number} comme saisie par erreur.',
  'remedy.intake.order-void': 'Demandez à l’auteur de la demande.',
  'finding.intake.order-called-off': '{what} de {number} a le statut {status} chez {destination}.',
  'remedy.intake.order-called-off':
    'Demandez à l’auteur de la demande si l’intervention est encore souhaitée.',
  'finding.intake.order-without-patient':
    'La demande {number} ne nomme aucun patient que {destination} fournisse.',
  'remedy.intake.order-without-patient': 'Recherchez le patient de la demande dans le dossier du patient.',
  'finding.intake.of-other-patient':
    '{destination} a fourni {count} {what} qui sont d’un autre patient ou n’en nomment aucun ; ils ont été laissés de côté.',
  'remedy.intake.of-other-patient':
    'Signalez-le aux responsables du serveur : il ne cherche pas par le patient demandé.',
  'finding.intake.not-answered': '{destination} n’a pas fourni {what} : {why}. Le dossier n’en dit rien.',
  'remedy.intake.not-answered': 'Consultez le dossier du patient et notez ce qui s’y trouve.',
  'finding.intake.more-there': '{destination} a plus de {what} qu’il n’en a été lu.',
  'remedy.intake.more-there': 'Cherchez dans le dossier du patient ce qui manque ici.',
  'finding.intake.not-taken': '{what} : {count} non repris : {why}.',
  'remedy.intake.not-taken': 'Notez-le à la main là où cela compte pour le cas.',
} as const satisfies Partial<Record<MessageKey, string>>;
