// The slider of the what-if page: the sentence follows at once, the chart as fast as it can be drawn.
import { draw } from './charts.js';

const section = document.querySelector('#what-if');
const slider = document.querySelector('#room');
const answer = document.querySelector('#room-answer');
const figure = document.querySelector('[data-chart=room]');
const narrow = figure.classList.contains('narrow');
const date = new Intl.DateTimeFormat(section.dataset.locale === 'en' ? 'en-GB' : section.dataset.locale, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});
const day = (iso) => (iso ? date.format(new Date(`${iso}T00:00:00Z`)) : null);

const reply = await fetch(`${section.dataset.json}${narrow ? '&width=narrow' : ''}`, {
  headers: { accept: 'application/json' },
});
if (!reply.ok) throw new Error('The what-if figures could not be loaded; the table stands.');
const { spec, steps } = await reply.json();

const nearest = () =>
  steps.reduce((best, step) =>
    Math.abs(step.allowanceMm - slider.value) < Math.abs(best.allowanceMm - slider.value) ? step : best,
  );

function say(step) {
  const extra = step.allowanceMm - Number(section.dataset.usual);
  const apart = `${Math.abs(extra)} mm ${extra > 0 ? 'more' : 'less'} than`;
  const bar = ` (${extra === 0 ? '' : `${apart} `}usual)`;
  const until = day(step.p10);
  answer.textContent = until
    ? `${step.allowanceMm} mm${bar}: 9 in 10 still fit until ${until}; as likely as not outgrown by ${day(step.p50) ?? 'more than 5 years from now'}.`
    : `${step.allowanceMm} mm${bar}: 9 in 10 still fit after more than 5 years.`;
  slider.setAttribute('aria-valuetext', answer.textContent);
}

let drawing = false;
let waiting = false;
async function show() {
  const step = nearest();
  say(step);
  if (drawing) {
    waiting = true;
    return;
  }
  drawing = true;
  try {
    await draw(figure, { ...spec, datasets: { ...spec.datasets, ...step.datasets } });
    figure.dataset.room = step.allowanceMm;
  } finally {
    drawing = false;
  }
  if (waiting) {
    waiting = false;
    show();
  }
}
slider.addEventListener('input', show);
say(nearest());
section.dataset.ready = 'yes';
