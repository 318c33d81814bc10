import type { MessageKey } from '../../../message.js';

/** Comptes rendus de dose. */
export const doseReportFindings = {
  'finding.dose-report.too-big':
    'Le fichier fait {found} octets ; les comptes rendus de dose sont lus jusqu’à {limit} octets.',
  'remedy.dose-report.too-big':
    'Vérifiez qu’il s’agit du compte rendu de dose et non d’une image de l’étude.',
  'finding.dose-report.not-dicom': 'Ce n’est pas un fichier DICOM.',
  'remedy.dose-report.not-dicom':
    'Exportez le compte rendu de dose depuis les archives en fichier DICOM (.dcm).',
  'finding.dose-report.damaged':
    'Le fichier est endommagé ou incomplet (à l’octet {at}). Rien n’en a été utilisé.',
  'remedy.dose-report.damaged': 'Exportez de nouveau le compte rendu de dose.',
  'finding.dose-report.syntax':
    'Le fichier est écrit dans la syntaxe de transfert {found}, qui n’est pas lue.',
  'remedy.dose-report.syntax': 'Exportez-le en Explicit ou Implicit VR Little Endian.',
  'finding.dose-report.too-much':
    'Le fichier a plus de {limit} éléments, bien plus qu’un compte rendu de dose. Rien n’en a été utilisé.',
  'remedy.dose-report.too-much': 'Vérifiez qu’il s’agit du compte rendu de dose d’une seule intervention.',
  'finding.dose-report.too-deep':
    'Le fichier imbrique des séquences sur plus de {limit} niveaux. Rien n’en a été utilisé.',
  'remedy.dose-report.too-deep': 'Exportez de nouveau le compte rendu de dose.',
  'finding.dose-report.other-object':
    'Cet objet DICOM n’est pas un compte rendu structuré (classe SOP {found}).',
  'remedy.dose-report.other-object': 'Choisissez le compte rendu de dose de l’étude ; sa modalité est SR.',
  'finding.dose-report.other-report':
    'Ce compte rendu structuré n’est pas un compte rendu de dose ; son titre est {found}.',
  'remedy.dose-report.other-report': 'Choisissez le compte rendu intitulé X-Ray Radiation Dose Report.',
  'finding.dose-report.said-twice':
    'Le compte rendu donne {what} plusieurs fois, avec des valeurs différentes. La valeur a été laissée de côté.',
  'remedy.dose-report.said-twice': 'Relevez la valeur à la console.',
  'finding.dose-report.value':
    '{what} a une valeur qui n’est pas une quantité possible : {found}. Elle a été laissée de côté.',
  'remedy.dose-report.value': 'Relevez la valeur à la console.',
  'finding.dose-report.unit':
    '{what} est donné dans une unité qui ne lui convient pas : {unit}. La valeur a été laissée de côté.',
  'remedy.dose-report.unit': 'Relevez la valeur et l’unité à la console.',
  'finding.dose-report.plane-twice':
    'Le compte rendu a plusieurs jeux de totaux pour le plan {plane}. Aucun n’a été utilisé.',
  'remedy.dose-report.plane-twice': 'Relevez les totaux à la console.',
  'finding.dose-report.planes-mixed':
    'Le compte rendu a des totaux pour un plan unique et pour le plan A ou B. Aucun n’a été utilisé.',
  'remedy.dose-report.planes-mixed': 'Relevez les totaux à la console.',
  'finding.dose-report.plane-unknown': 'Les totaux d’un plan inconnu ont été laissés de côté : {found}.',
  'remedy.dose-report.plane-unknown': 'Relevez les totaux à la console.',
  'finding.dose-report.name-unread':
    'Le nom du patient est écrit dans un jeu de caractères qui n’est pas lu. Il n’a pas été comparé.',
  'remedy.dose-report.name-unread': 'Comparez vous-même le nom.',
  'finding.dose-report.no-instance':
    'Le compte rendu n’a pas de SOP Instance UID : un compte rendu donné deux fois ne peut pas être reconnu.',
  'remedy.dose-report.no-instance': 'Donnez chaque compte rendu une seule fois.',
  'finding.dose-report.partial': 'Le compte rendu dit lui-même qu’il n’est pas complet.',
  'remedy.dose-report.partial': 'Utilisez le compte rendu envoyé à la fin de l’intervention.',
  'finding.dose-report.private': '{n} parties privées du compte rendu n’ont pas été lues ({names}).',
  'remedy.dose-report.private': 'Rien à faire.',
  'finding.dose-report.no-total':
    '{what} : le compte rendu ne donne pas de total utilisable, et tous les événements n’ont pas la valeur.',
  'remedy.dose-report.no-total': 'Relevez la valeur à la console et saisissez-la.',
  'finding.dose-report.summed':
    '{what} : le compte rendu ne donne pas de total utilisable ; {sum} est la somme de ses événements ({n}).',
  'remedy.dose-report.summed': 'Comparez avec la console.',
  'finding.dose-report.no-events':
    'Le compte rendu ne liste aucun événement d’irradiation : ses totaux ne peuvent pas être vérifiés.',
  'remedy.dose-report.no-events': 'Rien à faire si aucun rayonnement n’a été utilisé.',
  'finding.dose-report.sum-differs':
    '{what} : le compte rendu indique {total} au total, mais ses parties donnent {sum}.',
  'remedy.dose-report.sum-differs': 'Comparez avec la console avant d’utiliser la valeur.',
  'finding.dose-report.events-missing':
    'Le compte rendu compte {counted} événements d’irradiation mais en liste {found}.',
  'remedy.dose-report.events-missing': 'Comparez avec la console avant d’utiliser les valeurs.',
  'finding.dose-report.same-twice': '{file} est le même compte rendu que {other} et a été compté une fois.',
  'remedy.dose-report.same-twice': 'Rien à faire.',
  'finding.dose-report.instance-clash':
    '{file} et {other} ont la même SOP Instance UID mais des contenus différents. Rien n’a été additionné.',
  'remedy.dose-report.instance-clash': 'Exportez de nouveau les deux et utilisez celui des archives.',
  'finding.dose-report.two-patients':
    '{file} et {other} concernent des patients différents. Rien n’a été additionné.',
  'remedy.dose-report.two-patients': 'Donnez les comptes rendus d’un seul patient.',
  'finding.dose-report.two-cases':
    '{file} et {other} n’ont en commun ni l’étude ni le numéro d’accès. Rien n’a été additionné.',
  'remedy.dose-report.two-cases':
    'Donnez les comptes rendus d’une seule intervention ; les précédentes vont dans radiation.earlier.',
  'finding.dose-report.superseded':
    '{file} est contenu dans le compte rendu ultérieur {other} et n’a pas été additionné.',
  'remedy.dose-report.superseded': 'Rien à faire.',
  'finding.dose-report.overlap':
    'On ne peut pas savoir si {other} contient la dose de {file}. Rien n’a été additionné.',
  'remedy.dose-report.overlap': 'Comparez les deux avec la console et donnez celui qui est complet.',
  'finding.dose-report.added': 'Les valeurs de {n} comptes rendus ont été additionnées : {systems}.',
  'remedy.dose-report.added': 'Vérifiez que tous appartiennent à cette intervention.',
  'finding.dose-report.other-patient':
    '{file} semble concerner un autre patient. {what} : {found} dans le compte rendu, {recorded} dans le dossier.',
  'remedy.dose-report.other-patient':
    'Vérifiez le patient des deux côtés. Ne reprenez rien de ce compte rendu d’ici là.',
  'finding.dose-report.patient-differs':
    '{what} diffère dans {file} : {found} dans le compte rendu, {recorded} dans le dossier.',
  'remedy.dose-report.patient-differs': 'Vérifiez qu’il s’agit du même patient et corrigez la donnée fausse.',
  'finding.dose-report.patient-unsaid':
    '{file} et le dossier n’ont aucune donnée commune pour comparer le patient.',
  'remedy.dose-report.patient-unsaid': 'Vérifiez vous-même que le compte rendu concerne ce patient.',
  'finding.dose-report.other-case':
    '{file} appartient à une autre intervention : numéro d’accès {found} dans le compte rendu, {recorded} dans le dossier.',
  'remedy.dose-report.other-case':
    'Vérifiez le numéro d’accès. Ne reprenez rien de ce compte rendu d’ici là.',
  'finding.dose-report.said-none':
    'Le dossier dit qu’aucun rayonnement n’a été utilisé, mais il y a un compte rendu de dose.',
  'remedy.dose-report.said-none':
    'Corrigez radiation, ou vérifiez que le compte rendu appartient à cette intervention.',
  'finding.dose-report.not-recorded':
    '{what} ne figure pas dans le dossier ; le compte rendu de dose donne {found}.',
  'remedy.dose-report.not-recorded': 'Ajoutez la valeur au dossier.',
  'finding.dose-report.other-unit':
    '{what} : {recorded} dans le dossier, {found} dans le compte rendu de dose. Le nombre serait juste en {unit}.',
  'remedy.dose-report.other-unit': 'Corrigez l’unité dans le dossier.',
  'finding.dose-report.factor':
    '{what} : {recorded} dans le dossier, {found} dans le compte rendu de dose : un facteur {factor} les sépare.',
  'remedy.dose-report.factor': 'Vérifiez la virgule dans le dossier.',
  'finding.dose-report.differs': '{what} : {recorded} dans le dossier, {found} dans le compte rendu de dose.',
  'remedy.dose-report.differs': 'Comparez les deux avec la console et corrigez le dossier.',
} as const satisfies Partial<Record<MessageKey, string>>;
