// Entering a visit: what is typed is judged by the server, the one place that judges, and Enter moves on.
const form = document.querySelector('#visit');
const summary = form.querySelector('#summary');
const fields = [...form.querySelectorAll('input[data-hint]')];

let asking = 0;
async function check() {
  const mine = ++asking;
  const reply = await fetch(form.dataset.check, {
    method: 'POST',
    headers: { accept: 'application/json' },
    body: new URLSearchParams(new FormData(form)),
  });
  // Without an answer the hints stay: the server judges again when the visit is saved.
  if (!reply.ok || mine !== asking) return;
  const { errors, doubts, remarks, count } = await reply.json();
  for (const field of fields) {
    const doubt = errors[field.name] ?? doubts[field.name];
    const hint = document.getElementById(`${field.id}-hint`);
    const text = doubt ?? remarks[field.name] ?? field.dataset.hint;
    // What is as it was is not read out again.
    if (hint.textContent !== text) hint.textContent = text;
    hint.classList.toggle('warn', doubt !== undefined);
    if (doubt === undefined) field.removeAttribute('aria-invalid');
    else field.setAttribute('aria-invalid', 'true');
  }
  summary.textContent = count === 0 ? '' : `${count} ${count === 1 ? 'reading' : 'readings'} typed`;
}

let waiting;
const soon = () => {
  clearTimeout(waiting);
  waiting = setTimeout(check, 250);
};
for (const field of fields) field.addEventListener('input', soon);
form.querySelector('#unit').addEventListener('change', soon);
form.querySelector('#date').addEventListener('change', soon);

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

const firstBad = form.querySelector('[aria-invalid]') ?? fields[0];
firstBad?.focus();

// What was typed is not lost by closing the page by accident.
let saving = false;
form.addEventListener('submit', () => {
  saving = true;
});
addEventListener('beforeunload', (event) => {
  if (!saving && fields.some((f) => f.value !== f.defaultValue)) event.preventDefault();
});
