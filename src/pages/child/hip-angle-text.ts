/** 'left hip 40°, right hip 45°'; empty where neither was looked at. */
export const hipAngleText = (left: number | null = null, right: number | null = null): string =>
  [left === null ? '' : `left hip ${left}°`, right === null ? '' : `right hip ${right}°`]
    .filter(Boolean)
    .join(', ');
