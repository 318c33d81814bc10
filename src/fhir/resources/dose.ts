import type { Quantity as FhirQuantity } from 'fhir/r4.js';
import { printQuantity } from '../../record/quantity.js';
import { doseCodes } from '../codes/clinical.js';
import { knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { countOf, quantityOf } from '../quantity.js';
import { present } from '../tidy.js';
import { addObservation, component } from './observation.js';

/** Radiation: one Observation for each figure as recorded, and one that holds them together. */
export function addDose(context: MappingContext): void {
  const { radiation, images } = context.record;
  if (radiation === undefined) return;
  if (radiation === 'none') {
    addObservation(context, {
      role: 'observation/radiation',
      category: 'procedure',
      code: knownConcept(doseCodes.summary, 'Radiation'),
      value: { valueString: 'No ionising radiation was used' },
      section: 'dose',
      from: 'radiation',
    });
    return;
  }
  const studies = [...new Set((images ?? []).map(image => image.study))].map(uid => ({
    type: 'ImagingStudy',
    identifier: { system: 'urn:dicom:uid', value: `urn:oid:${uid}` },
  }));
  const figures = figuresOf(radiation);
  addObservation(context, {
    role: 'observation/radiation',
    category: 'procedure',
    code: knownConcept(doseCodes.summary, 'Radiation'),
    value: {
      valueString: figures.map(({ name, text }) => `${name} ${text}`).join('; ') || 'No figure recorded',
    },
    more: {
      partOf: [context.ref('procedure'), ...studies],
      device: radiation.system === undefined ? undefined : { display: radiation.system },
      hasMember: figures.length === 0 ? undefined : figures.map(({ role }) => context.ref(role)),
    },
    notes: present(radiation.note),
    section: 'dose',
    from: 'radiation',
  });
  for (const figure of figures)
    addObservation(context, {
      role: figure.role,
      category: 'procedure',
      code: figure.code,
      value: { valueQuantity: figure.value },
      more: { device: radiation.system === undefined ? undefined : { display: radiation.system } },
      section: 'dose',
      from: figure.from,
    });
  for (const [index, earlier] of (radiation.earlier ?? []).entries())
    addObservation(context, {
      role: `observation/radiation/earlier-${index + 1}`,
      category: 'procedure',
      code: knownConcept(doseCodes.summary, 'Radiation of an earlier case'),
      at: earlier.date,
      apart: true,
      components: [
        ...(earlier.airKerma
          ? [
              component(knownConcept(doseCodes.airKerma, 'Air kerma at the reference point'), {
                valueQuantity: quantityOf(earlier.airKerma),
              }),
            ]
          : []),
        ...(earlier.kermaAreaProduct
          ? [
              component(knownConcept(doseCodes.kermaAreaProduct, 'Kerma-area product'), {
                valueQuantity: quantityOf(earlier.kermaAreaProduct),
              }),
            ]
          : []),
      ],
      more: { focus: earlier.case && [{ type: 'Procedure', identifier: earlier.case }] },
      section: 'dose',
      from: `radiation.earlier[${index}]`,
    });
}

type Radiation = Exclude<NonNullable<MappingContext['record']['radiation']>, 'none'>;

interface Figure {
  readonly role: string;
  readonly name: string;
  readonly text: string;
  readonly code: ReturnType<typeof knownConcept>;
  readonly value: FhirQuantity;
  readonly from: string;
}

function figuresOf(radiation: Radiation): Figure[] {
  const measured = (
    field: 'peakSkinDose' | Exclude<keyof typeof doseCodes, 'frames' | 'summary'>,
    name: string,
    role: string,
  ): Figure[] => {
    const value = radiation[field];
    if (!value) return [];
    return [
      {
        role: `observation/${role}`,
        name,
        text: printQuantity(value),
        // DICOM has no total for the peak skin dose: its name alone.
        code: field === 'peakSkinDose' ? { text: name } : knownConcept(doseCodes[field], name),
        value: quantityOf(value),
        from: `radiation.${field}`,
      },
    ];
  };
  return [
    ...measured('kermaAreaProduct', 'Kerma-area product', 'kerma-area-product'),
    ...measured('airKerma', 'Air kerma at the reference point', 'air-kerma'),
    ...measured('fluoroscopyTime', 'Fluoroscopy time', 'fluoroscopy-time'),
    ...(radiation.frames === undefined
      ? []
      : [
          {
            role: 'observation/frames',
            name: 'Frames',
            text: String(radiation.frames),
            code: knownConcept(doseCodes.frames, 'Frames'),
            value: countOf(radiation.frames),
            from: 'radiation.frames',
          },
        ]),
    ...measured('peakSkinDose', 'Peak skin dose', 'peak-skin-dose'),
    ...measured('doseLengthProduct', 'Dose-length product', 'dose-length-product'),
    ...measured('ctDoseIndex', 'CT dose index (CTDIvol)', 'ct-dose-index'),
  ];
}
