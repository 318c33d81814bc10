import type { MessageKey } from '../../../message.js';

const length = 'Berichtigen Sie die Länge oder die Messung, oder nehmen Sie die Warnung mit dem Grund an.';
const size = 'Berichtigen Sie die Größe oder die Messung, oder nehmen Sie die Warnung mit dem Grund an.';

/** Größen, die nicht zueinander passen. */
export const sizeFindings = {
  'remedy.size.wire-too-big':
    'Berichtigen Sie die falsche Größe, oder nennen Sie den verwendeten Draht; ging es doch hindurch, nehmen Sie die Warnung an.',
  'remedy.size.wire-undersized':
    'Dokumentieren Sie den inneren Katheter oder den anderen Draht, wenn es ihn gab, oder nehmen Sie die Warnung an.',
  'remedy.size.wire-system':
    'Dokumentieren Sie den Drahtwechsel oder den inneren Katheter, der dazu passt; lief es wie geschrieben, nehmen Sie die Warnung an.',
  'remedy.size.device-too-big':
    'Berichtigen Sie die falsche Größe, oder nennen Sie, wodurch es ging; ging es doch hindurch, nehmen Sie die Warnung an.',
  'remedy.size.inner-short':
    'Berichtigen Sie die falsche Länge, oder nennen Sie, wodurch es ging; trat die Spitze doch aus, nehmen Sie die Warnung an.',
  'finding.size.tract-small':
    'Um {time} läuft {device} mit {size} über {wire:acc}; der weiteste davor dokumentierte Dilatator ({dilator}) hat {dilated}.',
  'remedy.size.tract-small':
    'Dokumentieren Sie den weiteren Dilatator, wenn es ihn gab, oder berichtigen Sie die falsche Größe.',
  'remedy.size.wire-too-short':
    'Verwenden oder dokumentieren Sie einen längeren Draht oder eine Verlängerung; wurde die Lage gehalten oder aufgegeben, nehmen Sie die Warnung an.',
  'finding.size.wire-perhaps-short':
    'Um {time}: {device} {way} über {wire:acc}. Wie weit es im Körper lag, ist nicht dokumentiert; nach einer Schätzung aus üblichen Längen sind {needed} nötig, um die Lage zu halten, und der Draht hat {length}.',
  'remedy.size.wire-perhaps-short':
    'Ergänzen Sie depth an dem Ereignis, das den Draht eingebracht hat; ist er zu kurz, verwenden oder dokumentieren Sie einen längeren.',
  'remedy.size.sheath-trapped':
    'Dokumentieren Sie die teilbare Schleuse, oder dass beide zusammen entfernt wurden; lässt sich der Ansatz abnehmen, nehmen Sie die Warnung an.',
  'remedy.size.wire-occupied':
    'Ergänzen Sie davor die Entfernung ({other}), oder sagen Sie, dass das andere hindurchläuft.',
  'remedy.size.over-pressure': 'Berichtigen Sie den Druck, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.size.deeper-than-long': 'Berichtigen Sie die Tiefe oder die Länge.',
  'remedy.size.oversize': size,
  'remedy.size.undersize': size,
  'remedy.size.stent-short':
    'Berichtigen Sie eine Länge, dokumentieren Sie den zweiten Stent, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.size.balloon-short':
    'Dokumentieren Sie jede Aufdehnung, berichtigen Sie eine Länge, oder nehmen Sie die Warnung mit dem Grund an.',
  'remedy.size.ureteric-short': length,
  'remedy.size.ureteric-long': length,
  'remedy.size.shaft-short':
    'Berichtigen Sie die Länge oder den Weg, oder nennen Sie den Ballon, der hinreichte.',
} satisfies Partial<Record<MessageKey, string>>;
