import type { MessageKey } from '../../../message.js';

const length = 'Corrigez la longueur ou la mesure, ou acceptez cet avertissement avec le motif.';
const size = 'Corrigez la taille ou la mesure, ou acceptez cet avertissement avec le motif.';

/** Des tailles qui ne vont pas ensemble. */
export const sizeFindings = {
  'remedy.size.wire-too-big':
    'Corrigez la taille qui est fausse ou indiquez le guide utilisé ; acceptez l’avertissement si cela a bien passé.',
  'remedy.size.wire-undersized':
    'Notez le cathéter interne ou l’autre guide s’il y en avait un, ou acceptez l’avertissement.',
  'remedy.size.wire-system':
    'Notez le changement de guide, ou le cathéter interne qui convient ; acceptez l’avertissement si cela s’est passé comme écrit.',
  'remedy.size.device-too-big':
    'Corrigez la taille qui est fausse ou indiquez par quoi il est passé ; acceptez l’avertissement si cela a bien passé.',
  'remedy.size.inner-short':
    'Corrigez la longueur qui est fausse ou indiquez par quoi il est passé ; acceptez l’avertissement si l’extrémité en est bien sortie.',
  'finding.size.tract-small':
    'À {time}, {device}, de {size}, passe sur {wire:def} ; le dilatateur le plus large noté auparavant ({dilator}) mesure {dilated}.',
  'remedy.size.tract-small':
    'Notez le dilatateur plus large s’il y en avait un, ou corrigez la taille qui est fausse.',
  'remedy.size.wire-too-short':
    'Utilisez ou notez un guide plus long ou une extension ; acceptez l’avertissement si la position a été gardée ou abandonnée.',
  'finding.size.wire-perhaps-short':
    'À {time}, {device} {way} sur {wire:def}. La longueur en place dans le corps n’est pas notée ; d’après une estimation tirée des longueurs usuelles, il faut {needed} pour rester en place, et le guide mesure {length}.',
  'remedy.size.wire-perhaps-short':
    'Ajoutez depth à l’événement qui a introduit le guide ; utilisez ou notez un guide plus long s’il est trop court.',
  'remedy.size.sheath-trapped':
    'Notez la gaine pelable, ou que les deux sont sortis ensemble ; acceptez l’avertissement si l’embase se démonte.',
  'remedy.size.wire-occupied':
    'Ajoutez avant cela le retrait {other:de}, ou dites que l’autre passe à travers.',
  'remedy.size.over-pressure': 'Corrigez la pression, ou acceptez cet avertissement avec le motif.',
  'remedy.size.deeper-than-long': 'Corrigez la profondeur ou la longueur.',
  'remedy.size.oversize': size,
  'remedy.size.undersize': size,
  'remedy.size.stent-short':
    'Corrigez une longueur, notez le second stent, ou acceptez cet avertissement avec le motif.',
  'remedy.size.balloon-short':
    'Notez chaque gonflage, corrigez une longueur, ou acceptez cet avertissement avec le motif.',
  'remedy.size.ureteric-short': length,
  'remedy.size.ureteric-long': length,
  'remedy.size.shaft-short':
    'Corrigez la longueur ou la distance, ou indiquez le ballonnet qui l’a atteinte.',
} as const satisfies Partial<Record<MessageKey, string>>;
