import type { lines as en } from '../en/lines.js';

/** Qué hace dudosa una línea dictada o escrita. */
export const lines: Record<keyof typeof en, string> = {
  'line.twoFit': '«{said}» encaja con varios productos: {devices}',
  'line.noFit': 'Ningún producto de la mesa encaja con «{said}»',
  'line.noDevice': 'No se nombra ningún producto para «{verb}»',
  'line.recent': 'No se nombra ningún producto; el último mencionado fue {device}',
  'line.notIn': '{device} no consta como dentro del paciente',
  'line.isIn': '{device} ya consta como dentro del paciente',
  'line.noTime': 'La línea no tiene hora',
  'line.words': 'No se ha entendido: {words}',
  'line.open': '«{word}» puede cambiar el sentido',
  'line.corrected': 'La línea se corrige a sí misma',
  'line.noAct': 'No se dice qué se hizo',
  'line.askBack': '«{word}» no aclara qué debe registrarse',
  'line.noDose': 'No se indica la dosis de {drug}',
  'line.noRoute': 'No se indica la vía de {drug}',
  'line.twoActs': 'Varios actos en una frase: {verbs}',
  'line.tooMany': 'Había {there} en la mesa; se dicen {count}',
};
