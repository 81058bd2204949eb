// Entering a visit: checks each value as it is typed against this child's own prediction, and moves on with Enter.
const form = document.querySelector('#visit');
const unit = form.querySelector('#unit');
const summary = form.querySelector('#summary');
const fields = [...form.querySelectorAll('input[data-size]')];
const perMm = { mm: 1, cm: 10, m: 1000, ft: 304.8, in: 25.4, inch: 25.4, '"': 25.4 };
const perKg = { kg: 1, g: 0.001, lb: 0.45359237, lbs: 0.45359237 };

function parse(text, size) {
  const parts = /^\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m|ft|inch|in|"|kg|lbs?|g)?\s*$/i.exec(text);
  if (!parts) return null;
  const given = parts[2]?.toLowerCase();
  const factor = size === 'kg' ? perKg[given ?? 'kg'] : perMm[given ?? unit.value];
  return factor === undefined ? null : Number(parts[1].replace(',', '.')) * factor;
}

// The sentence under a field, and whether it asks for a second look.
function judge(field) {
  const { size, expected, sd, min, max, last, hint } = field.dataset;
  const text = field.value.trim();
  if (text === '') return [hint, false];
  const value = parse(text, size);
  if (value === null) return ['Not a number with a unit known here (mm, cm, in; kg, lb).', true];
  const shown = `${Math.round(value * 10) / 10} ${size}`;
  if (value < Number(min) || value > Number(max))
    return [`${shown} is impossible; ${min} to ${max} ${size} are accepted.`, true];
  if (expected !== undefined) {
    const away = (value - Number(expected)) / Number(sd);
    if (Math.abs(away) > 2.6) {
      const other = size === 'mm' ? otherReading(text, Number(expected), Number(sd)) : '';
      return [
        `${shown}: ${away > 0 ? 'larger' : 'smaller'} than ${hint}. ${other || 'Measure again, or check side and digits.'}`,
        true,
      ];
    }
  }
  const grown =
    last === undefined || size === 'kg' ? '' : `, ${signed(value - Number(last))} mm since last time`;
  return [`${shown}${grown}: as expected`, false];
}

// The same digits in another unit that would fit.
function otherReading(text, expected, sd) {
  const number = Number(/\d+(?:[.,]\d+)?/.exec(text)[0].replace(',', '.'));
  for (const [name, factor] of [
    ['cm', 10],
    ['inch', 25.4],
    ['mm', 1],
  ])
    if (Math.abs(number * factor - expected) < 2.6 * sd)
      return `Did you mean ${number} ${name} (${Math.round(number * factor)} mm)?`;
  return '';
}

const signed = (mm) => `${mm >= 0 ? '+' : '−'}${Math.abs(Math.round(mm))}`;

function check(field) {
  const [text, doubtful] = judge(field);
  const hint = document.getElementById(`${field.id}-hint`);
  hint.textContent = text;
  hint.classList.toggle('warn', doubtful);
  field.classList.toggle('bad', doubtful);
  const typed = fields.filter((f) => f.value.trim() !== '').length;
  summary.textContent = typed === 0 ? '' : `${typed} ${typed === 1 ? 'reading' : 'readings'} typed`;
}

for (const field of fields) {
  field.addEventListener('input', () => check(field));
  if (field.value && !field.classList.contains('bad')) check(field);
}
unit.addEventListener('change', () => {
  for (const f of fields) if (f.value.trim() !== '') check(f);
});

form.addEventListener('keydown', (event) => {
  if (event.key !== 'Enter') return;
  if (event.ctrlKey || event.metaKey) {
    event.preventDefault();
    form.requestSubmit();
    return;
  }
  if (event.target.tagName !== 'INPUT') return;
  event.preventDefault();
  const all = [...form.querySelectorAll('input:not([type=hidden]), select, button')].filter(
    (e) => e.offsetParent !== null,
  );
  const next = all[all.indexOf(event.target) + 1];
  next?.focus();
  if (next?.select) next.select();
});

const firstBad = form.querySelector('.bad') ?? fields[0];
firstBad?.focus();

// Typed readings are not lost by closing the page by accident.
let saving = false;
form.addEventListener('submit', () => {
  saving = true;
});
addEventListener('beforeunload', (event) => {
  if (!saving && fields.some((f) => f.value !== f.defaultValue)) event.preventDefault();
});
