/** Age bands of the report by age at the forecast, years; `to` is excluded. 9-15 takes in the forecasts at 15. */
export const ageBands: readonly { readonly name: string; readonly from: number; readonly to: number }[] = [
  { name: '0-2', from: 0, to: 2 },
  { name: '2-5', from: 2, to: 5 },
  { name: '5-8', from: 5, to: 8 },
  { name: '8-11', from: 8, to: 11 },
  { name: '11-14', from: 11, to: 14 },
  { name: '14-18', from: 14, to: 18 },
  { name: 'below-8', from: 0, to: 8 },
  { name: '9-15', from: 9, to: 15.5 },
  { name: 'all', from: 0, to: 99 },
];
