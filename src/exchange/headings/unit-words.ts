/** Words for units in headings and cells, by the unit of records/units; 'st' is 14 lb. */
export const plainUnits: readonly (readonly [string, string])[] = [
  ...'mm|millimetre|millimetres|millimeter|millimeters|millimètre|millimètres|milímetros|millimetri|milimetros|mms'
    .split('|')
    .map((w) => [w, 'mm'] as const),
  ...'cm|cms|centimetre|centimetres|centimeter|centimeters|zentimeter|centimètre|centimètres|centímetros|centimetri|cmt|centimetros'
    .split('|')
    .map((w) => [w, 'cm'] as const),
  ...'m|metre|metres|meter|mètre|mètres|metros|metri|mtr|mt'.split('|').map((w) => [w, 'm'] as const),
  ...'in|inch|inches|ins|zoll|pouce|pouces|pulgada|pulgadas|pollici|duim|inch es'
    .split('|')
    .map((w) => [w, 'inch'] as const),
  ...'feet|ft'.split('|').map((w) => [w, 'ft'] as const),
  ...'kg|kgs|kilo|kilos|kilogram|kilograms|kilogramm|chilogrammi|chili|kilogrammes'
    .split('|')
    .map((w) => [w, 'kg'] as const),
  ...'g|gram|grams|gramm|grammes|gramos|grammi'.split('|').map((w) => [w, 'g'] as const),
  ...'lb|lbs|pound|pounds'.split('|').map((w) => [w, 'lb'] as const),
];
