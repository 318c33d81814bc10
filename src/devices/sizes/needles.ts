/** One line of the needle gauge chart; millimetres as decimal text. */
export interface NeedleRow {
  readonly gauge: string;
  readonly outer: string;
  /** Nominal inner diameter of the regular wall. */
  readonly innerRegular: string;
  /** Thickest wire that thin-wall access needles of this gauge are sold for, in inches; absent where none is usual. */
  readonly thinWallWire?: string;
}

/**
 * Outer diameters, and the inner ones of 18, 21 and 22 G: needle gauge chart as published in encyclopedias.
 * Other inner diameters, and the wires that thin-wall needles take: from memory, common practice.
 */
export const needleChart: readonly NeedleRow[] = [
  { gauge: '8', outer: '4.191', innerRegular: '3.429' },
  { gauge: '9', outer: '3.759', innerRegular: '2.997' },
  { gauge: '10', outer: '3.404', innerRegular: '2.692' },
  { gauge: '11', outer: '3.048', innerRegular: '2.388' },
  { gauge: '12', outer: '2.769', innerRegular: '2.159' },
  { gauge: '13', outer: '2.413', innerRegular: '1.803' },
  { gauge: '14', outer: '2.108', innerRegular: '1.600' },
  { gauge: '15', outer: '1.829', innerRegular: '1.372' },
  { gauge: '16', outer: '1.651', innerRegular: '1.194' },
  { gauge: '17', outer: '1.473', innerRegular: '1.067' },
  { gauge: '18', outer: '1.270', innerRegular: '0.838', thinWallWire: '0.038' },
  { gauge: '19', outer: '1.067', innerRegular: '0.686', thinWallWire: '0.038' },
  { gauge: '20', outer: '0.9081', innerRegular: '0.603', thinWallWire: '0.025' },
  { gauge: '21', outer: '0.8192', innerRegular: '0.514', thinWallWire: '0.021' },
  { gauge: '22', outer: '0.7176', innerRegular: '0.413', thinWallWire: '0.018' },
  { gauge: '23', outer: '0.6414', innerRegular: '0.337' },
  { gauge: '25', outer: '0.5144', innerRegular: '0.260' },
];

/** The chart's line for a gauge as written (`21`, `21.0`), or undefined. */
export function needleRow(gauge: string): NeedleRow | undefined {
  const whole = gauge.replace(/\.0+$/, '');
  return needleChart.find(row => row.gauge === whole);
}
