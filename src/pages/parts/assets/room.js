// The room table answers at once: every figure for all months and odds came with the page.
const section = document.querySelector('#room-table');
if (section) {
  const rows = JSON.parse(section.dataset.rows);
  const months = JSON.parse(section.dataset.months);
  const slider = section.querySelector('#months');
  const odds = section.querySelector('#odds');
  for (const button of section.querySelectorAll('.without-script')) button.hidden = true;

  const chosen = (row, needed) => {
    if (row.bar === null) return { allowance: needed, bar: null };
    const hole = row.bar.holeMm ?? 1;
    return {
      allowance: row.inForceMm,
      bar: Math.ceil(Math.max(0, needed - row.inForceMm) / hole) * hole,
    };
  };
  const chosenText = ({ allowance, bar }, row) => {
    const more = Math.round(allowance - row.usualMm);
    if (bar !== null) return `allowance ${Math.round(allowance)}, bar ${bar}`;
    return `allowance ${Math.round(allowance)}${more > 0 ? `, ${more} more than usual` : ''}`;
  };
  const lasts = (row, o) => {
    const room = row.inForceMm + (row.bar?.travelMm ?? 0);
    const last = row.neededMm[o].findLastIndex((mm) => mm <= room);
    if (last < 0) return `under ${months[0]} months`;
    return last === months.length - 1 ? `${months[last]} months or more` : `${months[last]} months`;
  };
  const show = () => {
    const m = months.indexOf(Number(slider.value));
    const o = odds.selectedIndex;
    section.querySelector('output').textContent = slider.value;
    const fields = new Map();
    section.querySelectorAll('tbody tr').forEach((tr, i) => {
      const row = rows[i];
      const needed = row.neededMm[o][m];
      const next = chosen(row, needed);
      tr.querySelector('[data-needed]').textContent = needed;
      tr.querySelector('[data-lasts]').textContent = lasts(row, o);
      tr.querySelector('[data-chosen]').textContent = chosenText(next, row);
      const { measure } = row.series;
      const most = (name, mm) =>
        fields.set(`${row.deviceId} ${name}`, Math.max(fields.get(`${row.deviceId} ${name}`) ?? 0, mm));
      most(`allowance.${measure}`, next.allowance);
      if (next.bar !== null) most(`bar.${measure}`, next.bar);
    });
    for (const form of section.querySelectorAll('form[data-device]'))
      for (const input of form.querySelectorAll('input[type=hidden]'))
        input.value = fields.get(`${form.dataset.device} ${input.name}`) ?? input.value;
    section.dataset.shown = `${slider.value} ${odds.value}`;
  };
  slider.addEventListener('input', show);
  odds.addEventListener('change', show);
  section.dataset.ready = 'yes';
}
