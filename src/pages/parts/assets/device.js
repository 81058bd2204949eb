// A form that only chooses what the page shows sends itself as soon as something is chosen.
for (const form of document.querySelectorAll('[data-sends-itself]')) {
  form.addEventListener('change', () => form.requestSubmit());
  for (const button of form.querySelectorAll('.without-script')) button.hidden = true;
}
