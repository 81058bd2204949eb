// The recall list from the keyboard: j and k or the arrows move, a letter sets the state, u takes the last change back.
const rows = [...document.querySelectorAll('tr[data-entry]')];
let at = rows.findIndex((row) => `#${row.id}` === location.hash);

function mark(index) {
  rows[at]?.classList.remove('chosen');
  rows[at]?.removeAttribute('aria-current');
  at = index;
  rows[at].classList.add('chosen');
  rows[at].setAttribute('aria-current', 'true');
}
// A letter is for the family where the keyboard is, also when it came there by Tab.
rows.forEach((row, index) => {
  row.addEventListener('focusin', () => mark(index));
});

function choose(index) {
  if (rows.length === 0) return;
  mark(Math.min(rows.length - 1, Math.max(0, index)));
  rows[at].querySelector('a')?.focus({ preventScroll: true });
  rows[at].scrollIntoView({ block: 'nearest' });
}
if (at >= 0) {
  choose(at);
  // Going to the row of the address takes the focus away again.
  addEventListener('load', () => choose(at));
}

// Somebody who speaks to the computer, or rests a hand on the keys, switches them off (WCAG 2.2, 2.1.4); kept in this browser.
const letters = document.querySelector('#letter-keys');
if (letters) {
  letters.checked = localStorage.getItem('letter-keys') !== 'off';
  letters.parentElement.hidden = false;
  letters.addEventListener('change', () => {
    localStorage.setItem('letter-keys', letters.checked ? 'on' : 'off');
  });
}

addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.target.closest('input, select')) return;
  if (event.target.closest('details.menu')) return;
  // What is one character long would be typed by a voice; arrows are not.
  if (event.key.length === 1 && !letters?.checked) return;
  if (event.key === 'j' || event.key === 'ArrowDown') choose(at + 1);
  else if (event.key === 'k' || event.key === 'ArrowUp') choose(at - 1);
  else if (event.key === '/') document.querySelector('#filter-text')?.focus();
  else {
    // Tab, Enter and whatever else is no letter of the list stay the browser's.
    const button = rows[at]?.querySelector(`button[data-key="${CSS.escape(event.key)}"]`);
    if (!button) return;
    button.click();
  }
  event.preventDefault();
});

// While a list is being made, look again every few seconds.
const job = document.querySelector('[data-job]');
if (job) setTimeout(() => location.reload(), 3000);
