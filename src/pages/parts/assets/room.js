// The room table answers at once: every figure for all months and odds came with the page.
const section = document.querySelector('#room-table');
if (section) {
  const rows = JSON.parse(section.dataset.rows);
  const months = JSON.parse(section.dataset.months);
  const slider = section.querySelector('#months');
  const odds = section.querySelector('#odds');
  for (const button of section.querySelectorAll('.without-script')) button.hidden = true;

  const show = () => {
    const m = months.indexOf(Number(slider.value));
    const o = odds.selectedIndex;
    section.querySelector('output').textContent = slider.value;
    const fields = new Map();
    section.querySelectorAll('tbody tr').forEach((tr, i) => {
      const { deviceId, byOdds } = rows[i];
      const { lasts, byMonth } = byOdds[o];
      const { needed, text, fields: mine } = byMonth[m];
      tr.querySelector('[data-needed]').textContent = needed;
      tr.querySelector('[data-lasts]').textContent = lasts;
      tr.querySelector('[data-chosen]').textContent = text;
      for (const [name, mm] of mine)
        fields.set(`${deviceId} ${name}`, Math.max(fields.get(`${deviceId} ${name}`) ?? 0, mm));
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
