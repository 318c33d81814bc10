import { listOf, type Named, NameTable } from './names.js';

/** A length that rules about sizes ask for. */
export interface LengthMeasure extends Named {
  readonly name: 'length of the ureter' | 'way to the target' | 'length';
}

const row = (name: LengthMeasure['name'], aliases: string): LengthMeasure => ({
  name,
  aliases: listOf(aliases),
});

/** Lengths as people name them among the measurements of a case. Common practice, no source. */
const lengths: readonly LengthMeasure[] = [
  row(
    'length of the ureter',
    'ureteric length|ureter length|pelvis to bladder|length from pelvis to bladder|distance from pelvis to bladder|' +
      'renal pelvis to bladder|distance from renal pelvis to bladder|length from renal pelvis to bladder|' +
      'length from pelviureteric junction to bladder|distance from pelviureteric junction to bladder|' +
      'length from ureteropelvic junction to bladder|distance from ureteropelvic junction to bladder|' +
      'PUJ to bladder|UPJ to bladder|length from PUJ to bladder|length from UPJ to bladder|' +
      'distance from PUJ to bladder|distance from UPJ to bladder|PUJ to VUJ|UPJ to UVJ|distance from PUJ to VUJ|' +
      'distance from UPJ to UVJ|length from PUJ to VUJ|length from UPJ to UVJ|' +
      'pelviureteric junction to vesicoureteric junction|ureteropelvic junction to ureterovesical junction|' +
      'length of the ureter measured|ureteral length measured|length of ureter from pelvis to bladder',
  ),
  row(
    'way to the target',
    'distance from access to target|distance from access to lesion|access to target|access to lesion|' +
      'distance from skin to target|distance from skin to lesion|skin to target|skin to lesion|' +
      'distance from puncture to target|distance from puncture to lesion|puncture to target|puncture to lesion|' +
      'distance from puncture site to target|distance from puncture site to lesion|' +
      'length from access to target|length from access to lesion|length from skin to target|' +
      'access distance|distance to target|distance to the lesion|skin to target distance|puncture distance',
  ),
  row('length', 'distance|measured length|measured distance|length measured|distance measured'),
];

/** Finds a length by its name. */
export const lengthTable = new NameTable(lengths, {
  qualifiers: 'left right native transplant measured total whole wire bend method kidney by with',
});
